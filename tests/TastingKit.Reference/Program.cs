using TastingKit.Reference;

// One argument: print the figures of a case. A second argument "--compare": print where they differ from its reference;
// "--records": the folder holds public records and the facts.json that independent software made of them.
if (args.Length is 0 or > 2 || (args.Length == 2 && args[1] is not ("--compare" or "--records")))
{
    Console.Error.WriteLine("usage: TastingKit.Reference CASE_FOLDER [--compare] | RECORDS_FOLDER --records");
    return 2;
}

try
{
    if (args is [var folder, "--records"])
    {
        var records = PublicRecords.Compare(folder);
        foreach (var figure in records)
        {
            Console.Out.WriteLine(figure);
        }

        Console.Out.WriteLine($"{records.Count} figures compared, {records.Count(figure => !figure.Agrees)} differ");
        return records.All(figure => figure.Agrees) ? 0 : 1;
    }

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
