using System.CommandLine;
using TastingKit.Calibration;
using TastingKit.Calibration.Planning;
using TastingKit.Calibration.SampleData;

var years = new Option<int>("--years") { Description = "Years a cell.", DefaultValueFactory = _ => 4000 };
var cell = new Option<string?>("--cell") { Description = "One cell only, by its name; all of them without it." };
var cores = new Option<int>("--cores") { Description = "Years computed at once; the results do not depend on it.", DefaultValueFactory = _ => 2 };
var records = new Option<string>("--records") { Description = "Where the years made so far are kept.", DefaultValueFactory = _ => "artifacts/calibration" };
var only = new Option<string?>("--only") { Description = "Only analyses whose name has this in it; their years and their page are kept apart." };
var output = new Option<string?>("--out") { Description = "The page of results; results.md beside this program's source without it, and results-NAME.md of some analyses only." };
var run = new Command("run", "Simulates years, holds the analyses against the truth, and writes the results. Goes on where a run of the same build was broken off.")
{
    years, cell, cores, records, only, output,
};
run.SetAction((parsed, cancellation) =>
{
    var cells = parsed.GetValue(cell) is { } name ? [CalibrationCells.Named(name)] : CalibrationCells.All;
    var word = parsed.GetValue(only);
    var analyses = CalibratedAnalyses.All.Where(analysis => word is null || analysis.Name.Contains(word, StringComparison.Ordinal)).ToArray();
    var suffix = word is null ? "" : $"-{word.Replace(' ', '-')}";
    var kept = parsed.GetValue(records) + suffix;
    foreach (var one in cells)
    {
        var findings = CalibrationRun.Run(one, parsed.GetValue(years), analyses, parsed.GetValue(cores), kept, made =>
        {
            if (made % 100 == 0)
                Console.WriteLine($"{one.Name}: {made} of {parsed.GetValue(years)} years");
        }, cancellation);
        Console.WriteLine($"{one.Name}: {findings.Years} years");
        foreach (var finding in findings.Findings)
            Console.WriteLine($"  {finding}");
        foreach (var (caution, share) in findings.Cautions)
            Console.WriteLine(FormattableString.Invariant($"  caution {caution} in {100 * share:F1} % of years"));
    }

    // Cells that were not run this time stand on the page with the years that this build made of them before.
    var known = CalibrationCells.All.Select(one => Rules.Judge(one, CellRecord.Open(kept, one.Name).Years.Values)).Where(one => one.Years > 0);
    File.WriteAllText(parsed.GetValue(output) ?? $"tests/TastingKit.Calibration/results{suffix}.md", ResultsPage.Write([.. known], word));
    return Task.FromResult(0);
});

var pages = new Argument<string>("pages") { Description = "The folder that holds results-NAME.md.", DefaultValueFactory = _ => "tests/TastingKit.Calibration" };
var index = new Command("index", "Writes results.md, which sums up the pages that runs of some analyses wrote.") { pages };
index.SetAction(parsed => ResultsIndex.Write(parsed.GetValue(pages)!));

var folder = new Argument<string>("folder") { Description = "The folder to write to." };
var sampleData = new Command("sample-data", "Writes the sample year that comes with the kit, its truth and its README.") { folder };
sampleData.SetAction(parsed => SampleYear.Write(parsed.GetValue(folder)!));

var races = new Option<int>("--races") { Description = "Years raced, unbalanced and balanced.", DefaultValueFactory = _ => 100 };
var namings = new Option<int>("--namings") { Description = "Years in which the best coffee is named.", DefaultValueFactory = _ => 1000 };
var nextBrewPage = new Option<string>("--out") { Description = "The page of results.", DefaultValueFactory = _ => "tests/TastingKit.Calibration/next-brew.md" };
var nextBrew = new Command("next-brew", "Brews simulated years on by the plan and in turn, and holds promised probabilities against what came.") { races, namings, nextBrewPage };
nextBrew.SetAction(parsed => File.WriteAllText(
    parsed.GetValue(nextBrewPage)!, NextBrewPage.Write(parsed.GetValue(races), parsed.GetValue(namings), Console.WriteLine)));

var root = new RootCommand("Calibration of TastingKit's analyses on simulated years, and the sample year.") { run, index, sampleData, nextBrew };
return await root.Parse(args).InvokeAsync();
