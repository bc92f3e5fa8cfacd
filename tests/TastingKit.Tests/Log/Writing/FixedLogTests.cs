using System.Text;
using TastingKit.Reading;
using TastingKit.Tests.Log.Reading;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Writing;

/// <summary>The canonical form is the log that was read, and every cell that differs from what is written is listed.</summary>
public sealed class FixedLogTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    public void Dispose() => _folder.Delete(recursive: true);

    private static FixedLog Fix(params (string File, string Text)[] files) => FixedLog.Of(
        LogFiles.InMemory("log", files.Select(file => KeyValuePair.Create(file.File, new ReadOnlyMemory<byte>(Encoding.UTF8.GetBytes(file.Text))))), WorkWatch.None);

    private static IEnumerable<string> Listed(FixedLog canonical) =>
        canonical.Changes.Select(change => FormattableString.Invariant($"{change.File} {change.Line} {change.RowId} {change.Column}: '{change.From}' to '{change.To}' by {change.Rule}"));

    [Fact]
    public void A_log_that_is_canonical_has_no_change()
    {
        var log = SimulatedYear.Create(new SimulationSettings(), seed: 3).Log;
        log.Write(_folder.FullName);
        Assert.Empty(Listed(FixedLog.Of(_folder.FullName)));
    }

    [Fact]
    public void A_workbook_is_written_as_the_files_of_its_sheets_with_each_change_at_its_sheet_and_row()
    {
        var place = Path.Combine(_folder.FullName, "my-year.xlsx");
        WorkbookFile.Write(
            place,
            ("Bags", [["bag_id", "coffee_id", "coffee", "country"], ["B1", "B1", "Halo", "Perú"]]),
            ("Tastings", [["tasting_id", "bag_id", "tasted_at", "purpose", "brew_time", "score"], ["T1", "B1", new DateTime(2025, 3, 14), "verdict", new TimeSpan(3, 15, 0), 7],
                ["T2", "B9", new DateTime(2025, 3, 15), "verdict", null, 7]]));

        var canonical = FixedLog.Of(place);

        Assert.Equal(
            [
                "my-year.xlsx/Bags 2 B1 country: 'Perú' to 'Peru' by word-read-as",
                "my-year.xlsx/Tastings 2 T1 brew_time: '03:15:00' to '3:15' by spreadsheet-time",
                "my-year.xlsx/Tastings 3 T2 : 'T2 | B9 | 2025-03-15 | verdict | 7' to '' by unknown-bag",
            ],
            Listed(canonical));
        var folder = Path.Combine(_folder.FullName, "fixed");
        canonical.Write(folder);
        Assert.Null(LogDifference.First(canonical.Log, TastingLog.Read(folder)));
        Assert.Contains("my-year.xlsx/Tastings,3,T2", File.ReadAllText(Path.Combine(folder, FixedLog.ChangesFile)), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_cell_that_differs_is_listed_with_its_reason()
    {
        var canonical = Fix(
            ("bags.csv", "Bag;coffee_id;coffee;country;net_weight_g\nB1;B1;Halo;Perú;8 oz\n;;Lost;;\n"),
            ("tastings.csv",
                "tasting_id;bag_id;tasted_at;purpose;brew_time;score;notes\nT1;B1;2025-03-14;verdict;195;12;apricot;\nT2;B1;2025-03-15;verdict;3:15;7,5;apricot\nT3;B9;2025-03-15;verdict;;;\n"));
        Assert.Equal(
            [
                "bags.csv 0  Bag: 'Bag' to 'bag_id' by header-read-as",
                "bags.csv 2 B1 country: 'Perú' to 'Peru' by word-read-as",
                "bags.csv 2 B1 net_weight_g: '8 oz' to '226.796185' by quantity-read-as",
                "bags.csv 3  : 'Lost' to '' by required-missing",
                "tastings.csv 2 T1 brew_time: '195' to '3:15' by own-form",
                "tastings.csv 2 T1 score: '12' to '' by score-off-scale",
                "tastings.csv 3 T2 score: '7,5' to '7.5' by own-form",
                "tastings.csv 4 T3 : 'T3 | B9 | 2025-03-15 | verdict' to '' by unknown-bag",
            ],
            Listed(canonical));
        Assert.All(canonical.Changes, change => Assert.EndsWith(".", change.Why, StringComparison.Ordinal));
    }

    [Fact]
    public void A_form_that_is_told_once_a_column_is_the_reason_of_every_cell_that_has_it()
    {
        var canonical = Fix(
            ("bags.csv", "bag_id,coffee_id,net_weight_g\nB1,B1,8 oz\nB2,B2,250 g\nB3,B3,12 oz\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,purpose\nT1,B1,\"April 4th, 2025\",verdict\nT2,B2,2025-04-05T08:30:00,verdict\nT3,B3,\"May 12th, 2025\",verdict\n"));
        Assert.Equal(
            [
                "bags.csv 2 B1: quantity-read-as", "bags.csv 3 B2: own-form", "bags.csv 4 B3: quantity-read-as",
                "tastings.csv 2 T1: date-read-as", "tastings.csv 3 T2: own-form", "tastings.csv 4 T3: date-read-as",
            ],
            canonical.Changes.Select(change => FormattableString.Invariant($"{change.File} {change.Line} {change.RowId}: {change.Rule}")));
    }

    [Fact]
    public void A_flat_table_becomes_two_files_and_what_is_added_is_told_once()
    {
        var canonical = Fix(("year.csv", "tasting_id,bag_id,coffee,tasted_at,score\nT1,B1,Halo,2025-03-14,7\nT2,B1,,2025-03-15,8\nT3,B1,Mist,2025-03-16,8\n"));
        Assert.Equal(
            ["year.csv 0  purpose: '' to 'verdict' by own-form", "year.csv 4 T3 coffee: 'Mist' to 'Halo' by bag-contradicts"],
            Listed(canonical));
    }

    [Fact]
    public void Files_beside_are_held_against_their_canonical_form_too()
    {
        var canonical = Fix(
            ("bags.csv", "bag_id,coffee_id\nB1,B1\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at,purpose\n"),
            ("changes.csv", "changed_on,what,from,to,by\n2025-06-01,water,a,b,me\n2025-02-01,burrs,,c,\n"),
            ("verdicts.csv", "published_on,bag_id,score\n2025-06-01,B1,\"7.50\"\n2025-06-01,B7,7\n"),
            ("scales.csv", "attribute,kind,min,max,step\nScore,liking,1,9,.5\n"),
            ("columns.csv", "file,written,means\nbags.csv,x,y\n"));
        Assert.Equal(
            [
                "columns.csv 0  : 'columns.csv' to '' by header-read-as",
                "scales.csv 2 score attribute: 'Score' to 'score' by own-form",
                "scales.csv 2 score step: '.5' to '0.5' by own-form",
                "verdicts.csv 2 2025-06-01 score: '7.50' to '7.5' by own-form",
                "verdicts.csv 3 B7 : '2025-06-01 | B7 | 7' to '' by unknown-bag",
                "changes.csv 2 2025-06-01 by: 'me' to '' by unknown-column",
            ],
            Listed(canonical));
    }

    [Fact]
    public void The_folder_reads_back_the_same_and_its_confirmations_still_hold()
    {
        var canonical = Fix(
            ("bags.csv", "bag_id;coffee\nB1;Halo\n"),
            ("tastings.csv", "tasting_id;bag_id;tasted_at;dose_g;water_g;score\nT1;B1;2025-03-14;15,0;600,5;7,3\nT2;B1;2025-03-15;15,0;600,5;7,4\n"),
            ("vocabulary.csv", "kind;written;means\nnote;yum;apricot\n"),
            ("accepted.csv", "rule;file;row_id;column;found;beside;remark\nscore-between-steps;tastings.csv;T1;score;7,3;;seen\nratio-unusual;tastings.csv;T2;water_g;600.5;dose_g 15;cold brew\n"));
        Assert.Equal(2, canonical.Log.Confirmed.Count);

        var folder = Path.Combine(_folder.FullName, "canonical");
        canonical.Write(folder);
        var readBack = TastingLog.Read(folder);

        Assert.Null(LogDifference.First(canonical.Log, readBack));
        Assert.Equal(["ratio-unusual T2 cold brew", "score-between-steps T1 seen"],
            readBack.Confirmed.Select(confirmed => $"{confirmed.Problem.Rule} {confirmed.Problem.RowId} {confirmed.Remark}").Order(StringComparer.Ordinal));
        Assert.Equal(["score-between-steps", "ratio-unusual"], readBack.Problems.Where(problem => problem.Severity > Severity.Information).OrderBy(problem => problem.RowId == "T1").Select(problem => problem.Rule));
        Assert.DoesNotContain(readBack.Problems, problem => problem.File is "accepted.csv" or "fixed-cells.csv");
        Assert.Equal(canonical.Changes.Count + 1, File.ReadAllLines(Path.Combine(folder, FixedLog.ChangesFile)).Length);
        // Once canonical, always canonical.
        Assert.Empty(Listed(FixedLog.Of(folder)));
    }

    [Fact]
    public void The_list_of_reports_is_neutralised_and_serves_as_confirmations()
    {
        var files = new[] { ("bags.csv", "bag_id,coffee\nB1,=c?té\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,7.3\n") };
        var csv = ProblemList.ToCsv(LogInMemory.Read(files).Problems);
        Assert.StartsWith("\uFEFFseverity,rule,file,line,row_id,column,found,beside,why,expected,fix\n", csv, StringComparison.Ordinal);
        Assert.Contains(",'=c?té,", csv, StringComparison.Ordinal);

        var doubts = csv.Split('\n').Where((line, index) => index == 0 || line.StartsWith("doubtful", StringComparison.Ordinal));
        var log = LogInMemory.Read([.. files, ("accepted.csv", string.Join('\n', doubts))]);
        Assert.Equal(2, log.Confirmed.Count);
        Assert.DoesNotContain(log.Problems, problem => problem.Severity > Severity.Information);
    }
}
