using System.Text;
using TastingKit.Tests.Log.Reading;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Writing;

public sealed class TastingLogWriteTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void A_folder_is_flushed_where_the_system_lets_a_program_do_so()
    {
        Assert.Equal(!OperatingSystem.IsWindows(), TastingKit.Writing.FolderFlush.Of(Path.GetTempPath()));
        Assert.False(TastingKit.Writing.FolderFlush.Of(Path.Combine(Path.GetTempPath(), "there-is-no-such-folder")));
    }

    [Fact]
    public void A_simulated_year_reads_back_the_same()
    {
        var log = SimulatedYear.Create(new SimulationSettings(), seed: 7).Log;

        log.Write(_folder.FullName);
        var readBack = TastingLog.Read(_folder.FullName);

        Assert.Null(LogDifference.First(log, readBack));
        Assert.Equal((log.Bags.Count, log.Tastings.Count), (readBack.Bags.Count, readBack.Tastings.Count));
        Assert.DoesNotContain(readBack.Problems, problem => problem.Severity == Severity.Rejected);
    }

    [Fact]
    public void The_same_log_gives_the_same_bytes()
    {
        var log = SimulatedYear.Create(new SimulationSettings(), seed: 7).Log;

        log.Write(Path.Combine(_folder.FullName, "one"));
        TastingLog.Read(Path.Combine(_folder.FullName, "one")).Write(Path.Combine(_folder.FullName, "two"));

        foreach (var file in Directory.GetFiles(Path.Combine(_folder.FullName, "one")))
            Assert.Equal(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(_folder.FullName, "two", Path.GetFileName(file))));
    }

    [Fact]
    public void Awkward_texts_read_back_the_same()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id;coffee;country;price;Regal;net_weight_g\nB1;\"Fünf; \"\"sechs\"\"\";Perú;18,50;=1+1;8 oz\nB2;TEST;;;;\n"),
            ("tastings.csv",
                "bag_id;tasted_at;water_temp;brew_time;score;notes;remark;mood\n"
                + "B1;2025-03-14 08:30:15.25;201F;3m15.5s;7,25;\"apricot;茶\";\"two\nlines, \"\"quoted\"\"\";-fine\n"
                + "B2;2025-03-15;96;75:00;;;;\n"),
            ("scales.csv", "attribute;kind;min;max;step\nscore;liking;0;10;0,25\nmood;intensity;0;5;1\n"));

        log.Write(_folder.FullName);
        var readBack = TastingLog.Read(_folder.FullName);

        Assert.Null(LogDifference.First(log, readBack));
        Assert.Equal("=1+1", readBack.Bags[0].OtherColumns["Regal"]);
        Assert.Equal(18.50m, readBack.Bags[0].Price);
        Assert.Equal((201 - 32) / 1.8, readBack.Tastings[0].WaterCelsius);
        Assert.Equal("two\nlines, \"quoted\"", readBack.Tastings[0].Remark);
        Assert.True(readBack.Bags[1].IsTestEntry);
    }

    [Fact]
    public void What_would_not_read_back_the_same_is_refused_and_nothing_is_written()
    {
        var bag = new Bag { Id = "B1", Coffee = new Coffee { Id = "B1" } };
        var cup = new Tasting { Id = "T1", Bag = bag, TastedAt = new DateTime(2025, 3, 14), Notes = ["apricot; plum"] };
        var log = new TastingLog(new LogContents { Name = "log", Bags = [bag], Tastings = [cup] });

        var error = Assert.Throws<InvalidOperationException>(() => log.Write(_folder.FullName));

        Assert.Contains("tasting 'T1', notes", error.Message, StringComparison.Ordinal);
        Assert.Empty(_folder.GetFileSystemInfos());
    }

    [Fact]
    public void A_file_that_is_there_is_left_unless_overwriting_is_asked_for()
    {
        var path = Path.Combine(_folder.FullName, "tastings.csv");
        File.WriteAllText(path, "mine");
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\n");

        var error = Assert.Throws<IOException>(() => log.Write(_folder.FullName));
        Assert.Contains("tastings.csv", error.Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal(["tastings.csv"], _folder.GetFiles().Select(file => file.Name));

        log.Write(_folder.FullName, overwrite: true);
        Assert.Null(LogDifference.First(log, TastingLog.Read(_folder.FullName)));
    }

    [Fact]
    public void Overwriting_leaves_no_record_of_the_log_before()
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "verdicts.csv"), "published_on,bag_id\n2025-03-20,B1\n");
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\n");

        log.Write(_folder.FullName, overwrite: true);

        Assert.Empty(TastingLog.Read(_folder.FullName).PublishedVerdicts);
    }

    [Fact]
    public void A_write_that_fails_leaves_the_old_files_and_no_unfinished_ones()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\n");
        File.WriteAllText(Path.Combine(_folder.FullName, "bags.csv"), "old");
        // A folder stands where the second file's unfinished form would.
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "tastings.csv.unfinished"));

        Assert.ThrowsAny<Exception>(() => log.Write(_folder.FullName, overwrite: true));

        Assert.Equal("old", File.ReadAllText(Path.Combine(_folder.FullName, "bags.csv")));
        Assert.Equal(["bags.csv"], _folder.GetFiles().Select(file => file.Name));
    }

    [Fact]
    public void A_write_that_was_ended_between_two_renames_is_read_as_the_new_log_and_finished_by_the_next()
    {
        var (before, after) = (SimulatedYear.Create(new SimulationSettings(), seed: 1).Log, SimulatedYear.Create(new SimulationSettings(), seed: 2).Log);
        var later = Path.Combine(_folder.FullName, "later");
        var folder = Path.Combine(_folder.FullName, "log");
        after.Write(later);
        before.Write(folder);
        // As it lies between the first and the second rename: the list, one file in its place, the others beside theirs.
        string[] names = [.. Directory.GetFiles(later).Select(path => Path.GetFileName(path))];
        foreach (var name in names)
            File.Copy(Path.Combine(later, name), Path.Combine(folder, name == names[0] ? name : name + ".unfinished"), overwrite: true);
        File.WriteAllLines(Path.Combine(folder, ".tastingkit-write"), names);

        var readBack = TastingLog.Read(folder);
        Assert.Null(LogDifference.First(after, readBack));
        Assert.Equal(names.Length - 1, readBack.Problems.Count(problem => problem is { Rule: "write-broken-off", Severity: Severity.Information }));

        before.Write(folder, overwrite: true);
        Assert.Null(LogDifference.First(before, TastingLog.Read(folder)));
        Assert.Equal(names.Order(StringComparer.Ordinal), Directory.GetFiles(folder).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_column_that_is_read_is_written()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,ratio\nT1,B1,2025-03-14,16\n");
        log.Write(_folder.FullName);

        var bags = TastingKit.Reading.BagColumns.All.Select(column => column.Name);
        Assert.Equal(bags, HeaderOf("bags.csv"));
        var cups = TastingKit.Reading.TastingColumns.For(new Dictionary<TastingAttribute, Scale>(), TastingAttribute.Defaults).Select(column => column.Name);
        Assert.Equal(cups, HeaderOf("tastings.csv"));
    }

    private string[] HeaderOf(string file) => File.ReadLines(Path.Combine(_folder.FullName, file), Encoding.UTF8).First().Split(',');
}
