using TastingKit.Reading;
using TastingKit.Starting;

namespace TastingKit.Tests.Log;

public sealed class NewLogTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    private string Place => Path.Combine(_folder.FullName, "my-year");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void The_empty_log_and_the_example_are_read_without_a_report()
    {
        NewLog.Write(Place);
        var empty = TastingLog.Read(Place);
        Assert.Empty(empty.Problems);
        Assert.Equal((0, 0), (empty.Bags.Count, empty.Tastings.Count));

        var example = TastingLog.Read(Path.Combine(Place, "example"));
        Assert.Empty(example.Problems);
        Assert.Equal((3, 8, 1, 1, 1), (example.Bags.Count, example.Tastings.Count, example.PublishedVerdicts.Count, example.BlindTests.Count, example.Changes.Count));
        Assert.True(example.Accounts.All(account => account.Rows == account.Accepted && account.Doubtful == 0));
        Assert.Equal(2, example.Tastings.Single(cup => cup.Id == "T8").ThawedOn!.Value.DayNumber - new DateOnly(2025, 4, 16).DayNumber);
        Assert.Single(_folder.GetFileSystemInfos());
    }

    [Fact]
    public void The_example_fills_every_column_but_those_for_what_few_have()
    {
        NewLog.Write(Place);
        foreach (var file in ColumnGuide.Files)
        {
            var rows = File.ReadAllLines(Path.Combine(Place, "example", file.Name)).Select(line => line.Split(',')).ToList();
            var blank = Enumerable.Range(0, rows[0].Length).Where(column => rows.Skip(1).All(row => row[column].Length == 0)).Select(column => rows[0][column]);
            Assert.Subset(new HashSet<string> { "coffee_id", "added", "taster", "corrected_on", "attribute" }, blank.ToHashSet());
        }
    }

    [Fact]
    public void Every_column_that_is_read_is_explained_in_the_order_in_which_it_is_written()
    {
        var cups = TastingColumns.For(new Dictionary<TastingAttribute, Scale>(), TastingAttribute.Defaults).Select(column => column.Name);
        Assert.Equal(BagColumns.All.Select(column => column.Name), Guided("bags.csv"));
        // A ratio is read where somebody keeps one; beside dose and water it is needless.
        Assert.Equal(cups.Where(column => column != "ratio"), Guided("tastings.csv"));
        var log = new TastingLog(new LogContents { Name = "log", Bags = [], Tastings = [] });
        Assert.All(
            TastingKit.Writing.LogWriter.Tables(log).Where(table => table.Name is not ("bags.csv" or "tastings.csv" or "vocabulary.csv")),
            table => Assert.Equal(table.Headers, Guided(table.Name)));

        NewLog.Write(Place);
        var readme = File.ReadAllText(Path.Combine(Place, "README.md"));
        Assert.All(ColumnGuide.Files.SelectMany(file => file.Columns), column => Assert.Contains($"\n| {column.Column} | {column.Meaning} |\n", readme, StringComparison.Ordinal));

        static IEnumerable<string> Guided(string name) => ColumnGuide.Files.Single(file => file.Name == name).Columns.Select(column => column.Column);
    }

    [Fact]
    public void What_is_there_is_left_alone_unless_overwriting_is_asked_for()
    {
        NewLog.Write(Place);
        var bags = Path.Combine(Place, "bags.csv");
        File.WriteAllText(bags, "mine");
        Assert.Throws<IOException>(() => NewLog.Write(Place));
        Assert.Equal("mine", File.ReadAllText(bags));
        NewLog.Write(Place, overwrite: true);
        Assert.Empty(TastingLog.Read(Place).Problems);
        Assert.Empty(Directory.GetFiles(Place, "*.unfinished", SearchOption.AllDirectories));
    }

    [Fact]
    public void A_folder_that_is_there_and_empty_is_filled()
    {
        Directory.CreateDirectory(Place);
        NewLog.Write(Place);
        Assert.Empty(TastingLog.Read(Place).Problems);
    }
}
