using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>The options that every command which runs a notebook has.</summary>
internal static class RunOptions
{
    private const int DefaultCellLimit = 600;

    internal static Option<string[]> Outputs() => new("--out", "-o")
    {
        Description = "Where to write: a page (.html) or the executed notebook (.ipynb). May be given more than once.",
        HelpName = "FILE",
        Required = true,
    };

    internal static Option<string[]> Settings() => new("--set")
    {
        Description = "Sets a variable that the notebook's cell tagged 'parameters' declares. May be given more than once.",
        HelpName = "NAME=VALUE",
    };

    internal static Option<int> Jobs()
    {
        var jobs = new Option<int>("--jobs")
        {
            Description = "Notebooks that run at once; by default as many as the machine has cores.",
            HelpName = "N",
            DefaultValueFactory = _ => Environment.ProcessorCount,
        };
        RequireOneOrMore(jobs, "");
        return jobs;
    }

    internal static Option<int> CellLimit()
    {
        var limit = new Option<int>("--cell-limit")
        {
            Description = "Seconds that one cell may take.",
            HelpName = "SECONDS",
            DefaultValueFactory = _ => DefaultCellLimit,
        };
        RequireOneOrMore(limit, " second");
        return limit;
    }

    private static void RequireOneOrMore(Option<int> option, string unit) => option.Validators.Add(result =>
    {
        if (result.Tokens.Count > 0 && int.TryParse(result.Tokens[0].Value, out var number) && number < 1)
            result.AddError($"{option.Name} is {number}. Expected 1{unit} or more.");
    });
}
