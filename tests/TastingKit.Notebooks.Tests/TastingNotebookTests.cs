using Microsoft.Data.Analysis;
using Microsoft.DotNet.Interactive.Formatting;
using TastingKit.Charts;

namespace TastingKit.Notebooks.Tests;

/// <summary>Displays, the log's folder and the working directory belong to the process: one class, so that nothing runs beside it.</summary>
[Collection(nameof(TastingNotebookTests))]
public sealed class TastingNotebookTests : IDisposable
{
    private readonly string _workingDirectory = Directory.GetCurrentDirectory();
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-notebooks-");

    public void Dispose()
    {
        Directory.SetCurrentDirectory(_workingDirectory);
        TastingNotebook.LogFolder = null;
        _folder.Delete(recursive: true);
    }

    private static string Html(object value) => value.ToDisplayString("text/html");

    private static string Text(object value) => value.ToDisplayString("text/plain");

    private static void ShowsBoth(object value) =>
        Assert.Equal(["text/html", "text/plain"], FormattedValue.CreateManyFromObject(value).Select(formatted => formatted.MimeType).Order());

    [Fact]
    public void Start_shows_the_stylesheet_and_plotly()
    {
        var setUp = TastingNotebook.Start();
        Assert.Equal(PlotlyLoader.HtmlWithStylesheet, Html(setUp));
        Assert.Matches("^TastingKit [0-9.]+(-[a-z]+)? is ready. Charts need no network.\n$", Text(setUp));
        Assert.Contains($"<p>{Text(setUp).Trim()}</p>", Html(setUp), StringComparison.Ordinal);
        ShowsBoth(setUp);
    }

    [Fact]
    public void Values_of_the_kit_show_themselves_as_the_library_lays_them_out()
    {
        TastingNotebook.Start();
        var chart = Chart.Nothing("Why", "No cups.");
        var table = new ResultTable("Cups", [new("what", "Coffee", ColumnKind.Text)], [[new TableCell.Text("<b>Halo</b>")]]);
        IReadOnlyList<LogProblem> problems = [new(Severity.Rejected, "r", "f.csv", 2, "c", null, "found", "why", "expected")];
        var log = Log();
        var frame = new DataFrame(new Int32DataFrameColumn("cup", Enumerable.Range(1, 5000)));
        var result = new Answer();

        Assert.Equal(chart.ToHtml(), Html(chart));
        Assert.Contains("&lt;b&gt;Halo&lt;/b&gt;", Html(table), StringComparison.Ordinal);
        Assert.Equal(HtmlRenderer.Render(LogLayout.OfProblems(problems)), Html(problems));
        Assert.Equal(HtmlRenderer.Render(LogLayout.Of(log)), Html(log));
        Assert.Equal(HtmlRenderer.Render(DataFrameLayout.Of(frame)), Html(frame));
        Assert.Equal(HtmlRenderer.Render(result.Layout()), Html(result));
        Assert.Equal(result.ToString(), Text(result));
        Assert.Equal(chart.ToString(), Text(chart));
        foreach (var value in new object[] { chart, table, problems, problems.ToArray(), new List<LogProblem>(problems), log, frame, result })
            ShowsBoth(value);
    }

    [Fact]
    public void A_number_is_shown_as_text()
    {
        TastingNotebook.Start();
        Assert.Equal("text/plain", Assert.Single(FormattedValue.CreateManyFromObject(1.5)).MimeType);
    }

    [Fact]
    public void The_log_is_that_of_the_folder_given()
    {
        WriteLog(_folder.FullName);
        TastingNotebook.LogFolder = _folder.FullName;
        Assert.Equal(2, TastingNotebook.Log.Tastings.Count);
        Assert.Same(TastingNotebook.Log, TastingNotebook.Log);
    }

    [Fact]
    public void Without_a_folder_the_sample_above_the_notebook_is_found()
    {
        WriteLog(_folder.CreateSubdirectory("sample-data").FullName);
        Directory.SetCurrentDirectory(_folder.CreateSubdirectory("notebooks").FullName);
        TastingNotebook.LogFolder = null;
        Assert.Equal("sample-data", TastingNotebook.Log.Name);
    }

    [Fact]
    public void Without_any_log_it_says_how_to_give_one()
    {
        Directory.SetCurrentDirectory(_folder.FullName);
        TastingNotebook.LogFolder = null;
        var error = Assert.Throws<DirectoryNotFoundException>(() => TastingNotebook.Log);
        Assert.Contains("sample-data", error.Message, StringComparison.Ordinal);
        Assert.Contains("LogFolder", error.Message, StringComparison.Ordinal);
    }

    private TastingLog Log()
    {
        WriteLog(_folder.FullName);
        return TastingLog.Read(_folder.FullName);
    }

    private static void WriteLog(string folder)
    {
        File.WriteAllText(Path.Combine(folder, "bags.csv"), "bag_id,coffee\nB1,Halo Ridge\n");
        File.WriteAllText(Path.Combine(folder, "tastings.csv"), "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-12 08:30,7.5\nT2,B1,2025-03-13 08:30,7\n");
    }

    /// <summary>A result derived from the base class, as those of the analyses are.</summary>
    private sealed class Answer() : TastingResult([], new Computation("None.", "None.", 2, []), Support.Given)
    {
        public override string Question => "Is it shown?";

        protected override IReadOnlyList<string> Sentences() => ["It is <shown>."];

        protected override ResultTable Tabulate() => new("Nothing", [], []);
    }
}
