using TastingKit.Reference;

// One argument: print the figures of a case. A second argument "--compare": print where they differ from its reference.
if (args.Length is 0 or > 2 || (args.Length == 2 && args[1] != "--compare"))
{
    Console.Error.WriteLine("usage: TastingKit.Reference CASE_FOLDER [--compare]");
    return 2;
}

try
{
    var figures = ReferenceCase.Read(args[0]).Fit();
    if (args.Length == 1)
    {
        Console.Out.WriteLine(FigureWriter.ToJson(figures));
        return 0;
    }

    var comparison = FigureComparison.Of(figures, Path.Combine(args[0], "reference.json"));
    foreach (string difference in comparison.Differences)
    {
        Console.Out.WriteLine(difference);
    }

    Console.Out.WriteLine($"{comparison.Compared} figures compared, {comparison.Differences.Count} differ");
    return comparison.Differences.Count == 0 ? 0 : 1;
}
catch (Exception error) when (error is IOException or CaseException or System.Text.Json.JsonException or UnauthorizedAccessException)
{
    Console.Error.WriteLine(error.Message);
    return 2;
}
