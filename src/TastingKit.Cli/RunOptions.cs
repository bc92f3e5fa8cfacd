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

    internal static Option<int> CellLimit()
    {
        var limit = new Option<int>("--cell-limit")
        {
            Description = "Seconds that one cell may take.",
            HelpName = "SECONDS",
            DefaultValueFactory = _ => DefaultCellLimit,
        };
        limit.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && int.TryParse(result.Tokens[0].Value, out var seconds) && seconds < 1)
                result.AddError($"--cell-limit is {seconds}. Expected 1 second or more.");
        });
        return limit;
    }
}
