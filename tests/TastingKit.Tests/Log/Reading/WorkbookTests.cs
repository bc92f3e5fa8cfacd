namespace TastingKit.Tests.Log.Reading;

public sealed class WorkbookTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    private string Place => Path.Combine(_folder.FullName, "my-year.xlsx");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_workbook_is_read_as_the_folder_of_its_sheets(bool byItsName)
    {
        WorkbookFile.Write(
            Place,
            ("Bags", [["bag_id", "coffee", "roast_date", "net_weight_g", "price"], ["B1", "Halo", new DateTime(2025, 3, 1), 250, 18.5]]),
            ("tastings", [["tasting_id", "bag_id", "tasted_at", "water_temp", "brew_time", "tds_pct", "score", "failed", "remark"],
                ["T1", "B1", new DateTime(2025, 3, 14, 8, 30, 0), 94, new TimeSpan(3, 15, 0), (0.0135, 4), 8.8000000000000007 - 0.8, true, "one\ntwo, \"three\""],
                [],
                ["T2", "B1", new DateTime(2025, 3, 15), 92, "3:05", 1.4, 99, false, null]]),
            ("Blind tests", [["test_id", "tested_on", "protocol", "bag_a", "bag_b", "trials", "correct"]]),
            ("empty", []));

        var log = TastingLog.Read(byItsName ? Place : _folder.FullName);

        Assert.Equal("my-year", log.Name);
        Assert.Equal((new DateOnly(2025, 3, 1), 250.0, 18.5m), (log.Bags[0].RoastDate!.Value, log.Bags[0].NetWeightGrams!.Value, log.Bags[0].Price!.Value));
        var cup = log.Tastings[0];
        Assert.Equal((new DateTime(2025, 3, 14, 8, 30, 0), true, true, 94.0, new TimeSpan(0, 3, 15)), (cup.TastedAt, cup.HasTimeOfDay, cup.Failed, cup.WaterCelsius!.Value, cup.BrewTime!.Value));
        Assert.Equal((1.35, 8.0, "one\ntwo, \"three\""), (cup.TdsPercent!.Value, cup.Score!.Value, cup.Remark));
        Assert.False(log.Tastings[1].HasTimeOfDay);
        Assert.Equal((2, 2, 1, 0), log.AccountOf("my-year.xlsx/tastings"));
        log.AssertReport("spreadsheet-time", Severity.Information, "my-year.xlsx/tastings", 2, "brew_time", "03:15:00");
        // The row of the sheet, though a cell above it holds two lines.
        log.AssertReport("score-off-scale", Severity.Doubtful, "my-year.xlsx/tastings", 4, "score", "99");
        // A sheet stores no empty cells: none is missing at a row's end.
        Assert.DoesNotContain(log.Problems, problem => problem.Rule is "file-not-read" or "missing-cells");
    }

    [Theory]
    [InlineData("#N/A")]
    [InlineData("#REF!")]
    [InlineData("#DIV/0!")]
    [InlineData("#VALUE!")]
    [InlineData("#NAME?")]
    [InlineData("#NUM!")]
    [InlineData("#NULL!")]
    public void A_formula_that_failed_is_told_at_its_row_and_read_as_nothing(string error)
    {
        WorkbookFile.Write(
            Place,
            ("bags", [["bag_id", "coffee"], ["B1", "Halo"]]),
            ("tastings", [["tasting_id", "bag_id", "tasted_at", "brewer", "score"], ["T1", "B1", new DateTime(2025, 3, 14), new WorkbookFile.Failed(error), 7],
                ["T2", "B1", new DateTime(2025, 3, 15), "cone", new WorkbookFile.Failed(error)], ["T3", "B1", new WorkbookFile.Failed(error), "cone", 7]]));

        var log = TastingLog.Read(Place);

        Assert.Equal([("spreadsheet-error", 2, "brewer"), ("spreadsheet-error", 3, "score"), ("spreadsheet-error", 4, "tasted_at")],
            log.Problems.Where(problem => problem.Found == error).Select(problem => (problem.Rule, problem.Line, problem.Column)));
        Assert.Equal(((string?)null, (double?)null), (log.Tastings[0].Brewer, log.Tastings[1].Score));
        // A day is what a cup can't do without.
        Assert.Equal((3, 2, 2, 1), log.AccountOf("my-year.xlsx/tastings"));
    }

    [Fact]
    public void A_doubt_is_confirmed_on_a_sheet_by_the_name_that_its_report_has()
    {
        void Write(params object?[][] accepted) => WorkbookFile.Write(
            Place,
            ("bags", [["bag_id", "coffee"], ["B1", "Halo"]]),
            ("Tastings", [["tasting_id", "bag_id", "tasted_at", "dose_g", "water_g"], ["T1", "B1", new DateTime(2025, 3, 14), 15, 600]]),
            ("accepted", [["rule", "file", "row_id", "column", "found", "beside"], .. accepted]));
        Write();
        var doubt = TastingLog.Read(Place).Only("ratio-unusual");
        Assert.Equal("my-year.xlsx/Tastings", doubt.File);

        File.Delete(Place);
        Write([doubt.Rule, doubt.File, doubt.RowId, doubt.Column, doubt.Found, doubt.Beside]);
        var log = TastingLog.Read(Place);

        Assert.DoesNotContain(log.Problems, problem => problem.Rule is "ratio-unusual" or "accepted-not-found");
        Assert.Equal(doubt, Assert.Single(log.Confirmed).Problem);
    }

    [Fact]
    public void Opening_tells_that_it_goes_on_and_ends_when_told_to()
    {
        WorkbookFile.Write(Place, ("bags", [["bag_id"], ["B1"]]), ("tastings", [["bag_id", "tasted_at"], .. Enumerable.Repeat<object?[]>(["B1", "2025-03-14"], 3000)]));
        var told = new List<WorkProgress>();
        TastingLog.Read(Place, WorkWatch.Of(new Told(told.Add)));
        Assert.Equal("opening my-year.xlsx", told[0].Doing);

        using var source = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() => TastingLog.Read(Place, WorkWatch.Of(new Told(_ => source.Cancel()), source.Token)));
    }

    [Fact]
    public void One_flat_sheet_of_any_name_is_read_with_its_bags()
    {
        WorkbookFile.Write(Place, ("Sheet1", [["Bag", "Coffee", "Date", "Rating", "Ratio"], ["B1", "Halo", "14/03/2025", 7, new TimeSpan(1, 16, 0)], ["B2", "Mist", "3/4/2025", 6, 16]]));

        var log = TastingLog.Read(Place);

        Assert.Equal(["Halo", "Mist"], log.Bags.Select(bag => bag.Coffee.Name));
        Assert.Equal([16.0, 16.0], log.Tastings.Select(cup => cup.Ratio!.Value));
        Assert.Equal(new DateTime(2025, 4, 3), log.Tastings[^1].TastedAt);
        Assert.Equal((2, 2, 0, 0), log.AccountOf("my-year.xlsx/Sheet1"));
    }

    [Fact]
    public void What_is_no_workbook_is_one_clear_error()
    {
        File.WriteAllText(Place, "PK\u0003\u0004 and nothing of a workbook");
        Assert.Contains("my-year.xlsx can't be read as a workbook", Assert.Throws<LogReadException>(() => TastingLog.Read(Place)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_spoiled_workbook_is_read_or_is_one_clear_error()
    {
        WorkbookFile.Write(Place, ("bags", [["bag_id"], ["B1"]]), ("tastings", [["bag_id", "tasted_at"], ["B1", new DateTime(2025, 3, 14)]]));
        var sound = File.ReadAllBytes(Place);
        var random = new TastingKit.Statistics.RandomStream(5);
        var unreadable = 0;
        for (var i = 0; i < 300; i++)
        {
            var spoiled = sound.ToArray();
            for (var count = 0; count < 3; count++)
                spoiled[random.NextInt32(spoiled.Length)] = (byte)random.NextInt32(256);
            File.WriteAllBytes(Place, spoiled);
            try
            {
                var log = TastingLog.Read(Place);
                Assert.All(log.Accounts, account => Assert.Equal(account.Rows, account.Accepted + account.Rejected));
            }
            catch (LogReadException)
            {
                unreadable++;
            }
        }

        Assert.InRange(unreadable, 1, 299);
    }
}
