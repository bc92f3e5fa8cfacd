namespace TastingKit.Tests.Log.Joining;

/// <summary>Years read as one log: nothing lost, nothing counted twice, nothing moved unsaid.</summary>
public sealed class SeveralFoldersTests : IDisposable
{
    private const string Scales = "attribute,kind,min,max,step\n";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    public void Dispose() => _folder.Delete(recursive: true);

    private TastingLog Read(params (string Path, string Text)[] files)
    {
        foreach (var (path, text) in files)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(_folder.FullName, path))!);
            File.WriteAllText(Path.Combine(_folder.FullName, path), text);
        }

        return TastingLog.Read([.. files.Select(file => Path.Combine(_folder.FullName, Path.GetDirectoryName(file.Path)!)).Distinct()]);
    }

    private static LogProblem Only(TastingLog log, string rule) => Assert.Single(log.Problems, problem => problem.Rule == rule);

    private static void AssertAccounted(TastingLog log)
    {
        Assert.All(log.Accounts, account =>
        {
            Assert.Equal(account.Rows, account.Accepted + account.Rejected);
            var rows = log.Problems.Where(problem => problem.File == account.File && problem.Line > 0).GroupBy(problem => problem.Line).Select(row => row.Max(problem => problem.Severity)).ToList();
            Assert.Equal((account.Doubtful, account.Rejected), (rows.Count(worst => worst == Severity.Doubtful), rows.Count(worst => worst == Severity.Rejected)));
        });
        Assert.Equal(log.Accounts.Where(account => account.File.EndsWith("tastings.csv", StringComparison.Ordinal)).Sum(account => account.Accepted), log.Tastings.Count);
    }

    [Fact]
    public void What_two_years_say_only_together_is_told_in_the_later_one()
    {
        const string Bags = "bag_id,coffee,net_weight_g\nB1,Halo,100\n";
        const string Header = "tasting_id,bag_id,tasted_at,brewer,dose_g,score\n";
        var log = Read(
            ("2024/bags.csv", Bags), ("2024/tastings.csv", Header + "T1,B1,2024-12-30T08:30,cone,60,7\nT2,B1,2024-12-31T08:30,cone,20,7\n"),
            ("2025/bags.csv", Bags), ("2025/tastings.csv", Header + "U1,B1,2024-12-31T08:30,cone,15,6\nU2,B1,2025-01-02T08:30,cone,15,7\n"));

        var like = Only(log, "near-duplicate");
        Assert.Equal(("2025/tastings.csv", 2, "U1", "cup T2"), (like.File, like.Line, like.RowId, like.Beside));
        Assert.StartsWith("Line 3 of 2024/tastings.csv has a cup", like.Why, StringComparison.Ordinal);
        var over = Only(log, "more-brewed-than-held");
        Assert.Equal(("2025/tastings.csv", 3, "U2", "110 g brewed in all; net_weight_g 100"), (over.File, over.Line, over.RowId, over.Beside));
        AssertAccounted(log);
    }

    [Fact]
    public void What_two_years_say_only_together_is_confirmed_in_the_later_one()
    {
        const string Bags = "bag_id,coffee,net_weight_g\nB1,Halo,100\n";
        const string Header = "tasting_id,bag_id,tasted_at,brewer,dose_g,score\n";
        (string, string)[] years =
        [
            ("2024/bags.csv", Bags), ("2024/tastings.csv", Header + "T1,B1,2024-12-30T08:30,cone,60,7\nT2,B1,2024-12-31T08:30,cone,20,7\n"),
            ("2025/bags.csv", Bags), ("2025/tastings.csv", Header + "U1,B1,2024-12-31T08:30,cone,15,6\nU2,B1,2025-01-02T08:30,cone,15,7\n"),
        ];
        var doubts = Read(years).Problems.Where(problem => problem.Severity == Severity.Doubtful).ToList();
        Assert.Equal(2, doubts.Count);
        const string Accepted = "rule,file,row_id,column,found,beside,remark\n";
        var lines = doubts.ConvertAll(doubt => $"{doubt.Rule},{doubt.File},{doubt.RowId},{doubt.Column},{doubt.Found},{doubt.Beside},it is right\n");

        var log = Read([.. years, ("2025/accepted.csv", Accepted + string.Concat(lines) + "near-duplicate,tastings.csv,U9,tasted_at,2024-12-31T08:30,cup T2,gone\n")]);
        var left = Assert.Single(log.Problems, problem => problem.Severity == Severity.Doubtful);
        Assert.Equal(("accepted-not-found", "2025/accepted.csv", 4), (left.Rule, left.File, left.Line));
        Assert.Equal(doubts, log.Confirmed.Select(confirmed => confirmed.Problem));
        Assert.All(log.Confirmed, confirmed => Assert.Equal("it is right", confirmed.Remark));
        AssertAccounted(log);

        // It speaks of the folder in which it stands, and of no other.
        File.Delete(Path.Combine(_folder.FullName, "2025/accepted.csv"));
        var elsewhere = Read([.. years, ("2024/accepted.csv", Accepted + lines[0])]);
        Assert.Equal(3, elsewhere.Problems.Count(problem => problem.Severity == Severity.Doubtful));
        AssertAccounted(elsewhere);
    }

    [Fact]
    public void What_one_year_shows_by_itself_is_told_once()
    {
        const string Bags = "bag_id,coffee,net_weight_g\nB1,Halo,100\n";
        const string Header = "tasting_id,bag_id,tasted_at,brewer,dose_g,score\n";
        var log = Read(
            ("2024/bags.csv", Bags), ("2024/tastings.csv", Header + "T1,B1,2024-12-31T08:30,cone,60,7\nT2,B1,2024-12-31T08:30,cone,60,7\n"),
            ("2025/bags.csv", Bags), ("2025/tastings.csv", Header + "U1,B1,2025-01-02T08:30,cone,15,7\n"));

        Assert.Equal("2024/tastings.csv", Only(log, "near-duplicate").File);
        Assert.Equal("2024/tastings.csv", Only(log, "more-brewed-than-held").File);
        AssertAccounted(log);
    }

    [Fact]
    public void Two_years_are_one_log_whose_reports_name_the_folder()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id,coffee\nB1,Halo\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2024-11-14,7\nT2,B9,2024-11-15,7\n"),
            ("2025/bags.csv", "bag_id,coffee\nB2,Mist\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT3,B2,2025-03-14,12\n"));
        Assert.Equal(("2024 + 2025", 2, 2), (log.Name, log.Bags.Count, log.Tastings.Count));
        Assert.Equal([("unknown-bag", "2024/tastings.csv", 3), ("score-off-scale", "2025/tastings.csv", 2)],
            log.Problems.Where(problem => problem.Severity > Severity.Information).Select(problem => (problem.Rule, problem.File, problem.Line)));
        Assert.Equal(["2024/bags.csv", "2024/tastings.csv", "2025/bags.csv", "2025/tastings.csv"], log.Accounts.Select(account => account.File));
        AssertAccounted(log);
        AssertAccounted(log.Where(_ => true));
    }

    [Fact]
    public void A_bag_that_goes_on_into_the_next_year_is_one_and_what_contradicts_is_reported()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id,coffee_id,coffee,roast_date,process,price\nB1,C1,Halo,2024-12-01,washed,16\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2024-12-14\n"),
            ("2025/bags.csv", "bag_id,coffee_id,coffee,roast_date,process,region\nB1,C1,halo,2024-12-01,natural,south\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at\nT2,B1,2025-01-14\n"));
        var bag = Assert.Single(log.Bags);
        Assert.Equal(("washed", "south", 16m), (bag.Coffee.Process, bag.Coffee.Region, bag.Price));
        Assert.All(log.Tastings, cup => Assert.Same(bag, cup.Bag));
        var doubt = Only(log, "bag-contradicts");
        Assert.Equal((Severity.Doubtful, "2025/bags.csv", 2, "B1", "process", "natural"), (doubt.Severity, doubt.File, doubt.Line, doubt.RowId, doubt.Column, doubt.Found));
        AssertAccounted(log);
    }

    [Fact]
    public void Identifiers_that_stand_for_two_things_get_their_folder_in_front_and_are_reported()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id,coffee_id,coffee\nB1,C1,Halo\nB2,,Fern\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2024-12-14,7\n,B2,2024-12-15,6\n"),
            ("2024/verdicts.csv", "published_on,bag_id\n2024-12-20,B1\n"), ("2024/blind-tests.csv", "test_id,tested_on,protocol,bag_a,bag_b,trials,correct\nX1,2024-12-20,triangle,B1,B2,6,3\n"),
            ("2025/bags.csv", "bag_id,coffee_id,coffee\nB1,C1,Mist\nB2,,Dawn\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-01-14,8\n,B2,2025-01-15,5\n"),
            ("2025/verdicts.csv", "published_on,bag_id\n2025-01-20,B1\n"), ("2025/blind-tests.csv", "test_id,tested_on,protocol,bag_a,bag_b,trials,correct\nX1,2025-01-20,triangle,B1,B2,6,3\n"));
        Assert.Equal(["B1", "B2", "2025/B1", "2025/B2"], log.Bags.Select(bag => bag.Id));
        Assert.Equal(["C1", "B2", "2025/C1", "2025/B2"], log.Coffees.Select(coffee => coffee.Id));
        Assert.Equal([("T1", "Halo"), ("line-3", "Fern"), ("2025/T1", "Mist"), ("2025/line-3", "Dawn")], log.Tastings.Select(cup => (cup.Id, cup.Bag.Coffee.Name!)));
        Assert.Equal(["B1", "2025/B1"], log.PublishedVerdicts.Select(verdict => verdict.BagId));
        Assert.Equal([("X1", "B1", "B2"), ("2025/X1", "2025/B1", "2025/B2")], log.BlindTests.Select(test => (test.Id, test.BagA, test.BagB)));
        Assert.Equal(
            [("2025/bags.csv", "bag_id", "B1, B2"), ("2025/bags.csv", "coffee_id", "C1"), ("2025/blind-tests.csv", "test_id", "X1"), ("2025/tastings.csv", "tasting_id", "T1")],
            log.Problems.Where(problem => problem.Rule == "id-reused").Select(problem => (problem.File, problem.Column, problem.Found)).Order());
        AssertAccounted(log);
    }

    [Fact]
    public void A_cup_or_another_row_that_stands_in_two_folders_is_taken_once()
    {
        const string Bags = "bag_id,coffee\nB1,Halo\n", Cup = "tasting_id,bag_id,tasted_at,score\nT1,B1,2024-12-31,7\n", Changes = "changed_on,what,to\n2024-06-01,water,spring\n";
        var log = Read(
            ("a/bags.csv", Bags), ("a/tastings.csv", Cup), ("a/changes.csv", Changes),
            ("b/bags.csv", Bags), ("b/tastings.csv", Cup + "T2,B1,2025-01-02,7\n"), ("b/changes.csv", Changes));
        Assert.Equal(["T1", "T2"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal((Severity.Rejected, "b/tastings.csv", 2), (Only(log, "duplicate-id").Severity, Only(log, "duplicate-id").File, Only(log, "duplicate-id").Line));
        Assert.Single(log.Changes);
        Assert.Equal("b/changes.csv", Only(log, "repeated-row").File);
        Assert.Single(log.Bags);
        AssertAccounted(log);
    }

    [Fact]
    public void Scores_move_onto_the_last_years_scale_and_keep_what_is_written()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id,coffee\nB1,Halo\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score,body\nT1,B1,2024-12-14,7.5,12\n"), ("2024/verdicts.csv", "published_on,bag_id,score\n2024-12-20,B1,9\n"),
            ("2025/bags.csv", "bag_id,coffee\nB2,Mist\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score,body\nT2,B2,2025-01-14,8,12\n"), ("2025/scales.csv", Scales + "score,liking,0,100,1\n"));
        Assert.Equal((81.25, "7.5"), (log.Tastings[0].Score, log.Tastings[0].AsWritten["score"]));
        Assert.Equal((8.0, 0), (log.Tastings[1].Score, log.Tastings[1].AsWritten.Count));
        Assert.All(log.Tastings, cup => Assert.Equal(12, cup.ValueOf(TastingAttribute.Body)));
        Assert.Equal(100, log.PublishedVerdicts[0].Score);
        Assert.Equal(new Scale(TastingAttribute.Score, ScaleKind.Liking, 0, 100, 1), log.ScaleOf(TastingAttribute.Score));
        var report = Only(log, "scale-aligned");
        Assert.Equal((Severity.Information, "2024/tastings.csv", "score"), (report.Severity, report.File, report.Column));
        Assert.Contains("1 to 0 and 9 to 100", report.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Scales_of_two_kinds_are_kept_apart()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id\nB1\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score,body\nT1,B1,2024-12-14,7,3\n"), ("2024/scales.csv", Scales + "body,just-right,1,5,1\nscore,quality,0,100,1\n"),
            ("2025/bags.csv", "bag_id\nB2\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score,body\nT2,B2,2025-01-14,8,12\n"));
        var body = TastingAttribute.Named("body (2024)");
        Assert.Equal((null, null, 3.0, 7.0), (log.Tastings[0].Score, log.Tastings[0].ValueOf(TastingAttribute.Body), log.Tastings[0].ValueOf(body), log.Tastings[0].ValueOf(TastingAttribute.Named("score (2024)"))));
        Assert.Equal((8.0, 12.0), (log.Tastings[1].Score, log.Tastings[1].ValueOf(TastingAttribute.Body)));
        Assert.Equal(ScaleKind.JustRight, log.ScaleOf(body).Kind);
        Assert.Equal(2, log.Problems.Count(problem => problem is { Rule: "scale-kinds-differ", Severity: Severity.Doubtful }));
    }

    [Fact]
    public void Folders_of_one_name_are_told_apart_and_each_is_given_once()
    {
        var log = Read(("a/log/bags.csv", "bag_id\nB1\n"), ("b/log/bags.csv", "bag_id\nB2\n"));
        Assert.Equal("log + log (2)", log.Name);
        Assert.Throws<ArgumentException>(() => TastingLog.Read([Path.Combine(_folder.FullName, "a/log"), Path.Combine(_folder.FullName, "a/log/")]));
        Assert.Throws<ArgumentException>(() => TastingLog.Read([]));
        Assert.Equal("log", TastingLog.Read([Path.Combine(_folder.FullName, "a/log")]).Name);
    }

    [Fact]
    public void Confirmations_hold_in_their_own_folder()
    {
        var log = Read(
            ("2024/bags.csv", "bag_id\nB1\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2024-12-14,7.3\n"), ("2024/accepted.csv", "rule,file,row_id,column,found\nscore-between-steps,tastings.csv,T1,score,7.3\n"),
            ("2025/bags.csv", "bag_id\nB2\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B2,2025-01-14,7.3\n"));
        Assert.Equal("2024/tastings.csv", Assert.Single(log.Confirmed).Problem.File);
        Assert.Equal("2025/tastings.csv", Only(log, "score-between-steps").File);
    }

    [Fact]
    public void A_line_of_the_list_on_several_folders_confirms_in_the_folder_it_names()
    {
        (string, string)[] files =
        [
            ("2024/bags.csv", "bag_id\nB1\n"), ("2024/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2024-12-14,7.3\n"),
            ("2025/bags.csv", "bag_id\nB2\n"), ("2025/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B2,2025-01-14,7.3\n"),
        ];
        var list = ProblemList.ToCsv([.. Read(files).Problems.Where(problem => problem.File == "2025/tastings.csv" && problem.Severity == Severity.Doubtful)]);
        var log = Read([.. files, ("2025/accepted.csv", list)]);
        Assert.Equal("2025/tastings.csv", Assert.Single(log.Confirmed).Problem.File);
        Assert.Equal("2024/tastings.csv", Only(log, "score-between-steps").File);
    }

    [Fact]
    public void The_last_years_word_holds_and_the_vocabulary_is_written_once()
    {
        const string Words = "kind,written,means\n";
        var log = Read(
            ("2024/bags.csv", "bag_id\nB1\n"), ("2024/vocabulary.csv", Words + "note,yum,peach\nnote,zing,lemon\n"),
            ("2025/bags.csv", "bag_id\nB2\n"), ("2025/vocabulary.csv", Words + "note,Yum,apricot\n"));
        Assert.Equal("apricot", log.Vocabulary.Canonical(VocabularyKind.Note, "yum"));
        Assert.Equal(["Yum", "zing"], log.Vocabulary.Own.Select(entry => entry.Written));
        log.Write(Path.Combine(_folder.FullName, "joined"));
        Assert.Equal(log.Vocabulary.Own, TastingLog.Read(Path.Combine(_folder.FullName, "joined")).Vocabulary.Own);
    }

    [Fact]
    public void A_joined_log_can_be_written_and_read_back()
    {
        foreach (var year in new[] { 1, 2 })
            SimulatedYear.Create(new SimulationSettings(), seed: (ulong)year).Log.Write(Path.Combine(_folder.FullName, $"{year}"));
        var log = TastingLog.Read([Path.Combine(_folder.FullName, "1"), Path.Combine(_folder.FullName, "2")]);
        Assert.Equal(SimulatedYear.Create(new SimulationSettings(), seed: 1).Log.Tastings.Count + SimulatedYear.Create(new SimulationSettings(), seed: 2).Log.Tastings.Count, log.Tastings.Count);
        log.Write(Path.Combine(_folder.FullName, "joined"));
        Assert.Null(TastingKit.Writing.LogDifference.First(log, TastingLog.Read(Path.Combine(_folder.FullName, "joined"))));
        AssertAccounted(log);
    }
}
