using System.Globalization;
using Microsoft.Data.Analysis;
using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log;

/// <summary>The frame handed out, held against what data frames get wrong when they are left to guess.</summary>
public sealed class TastingLogTableTests
{
    private static readonly TastingLog Log = LogInMemory.Read(
        ("bags.csv", "bag_id,coffee,country,roast_date,price,shelf,mood\nB1,007,Peru; Bolivia,2025-03-01,16777217,top,calm\nB2,,,,,,\n"),
        ("tastings.csv",
            "tasting_id,bag_id,tasted_at,score,body,dose_g,water_g,brew_time,frozen_on,thawed_on,notes,remark,mood\n"
            + "T1,B1,2025-03-14T08:30:15.250,6,,15,240,3:15,2025-03-02,2025-03-05,apricot; plum,private,good\n"
            + "T2,B1,2025-03-15,,5,,,,,,,,\n"
            + "T3,B2,2025-03-16,8,,,,,,,,,\n"));

    private static readonly DataFrame Frame = Log.ToDataFrame();

    [Fact]
    public void There_is_one_row_a_cup_in_the_order_of_the_log() =>
        Assert.Equal(Log.Tastings.Select(cup => cup.Id), Column<string>("tasting_id"));

    [Fact]
    public void A_bags_columns_stand_beside_each_of_its_cups()
    {
        Assert.Equal(["007", "007", null], Column<string>("coffee"));
        Assert.Equal(["Peru; Bolivia", "Peru; Bolivia", null], Column<string>("country"));
        Assert.Equal([new DateTime(2025, 3, 1), new DateTime(2025, 3, 1), null], Column<DateTime?>("roast_date"));
    }

    [Fact]
    public void Rest_is_effective_and_ratio_and_brew_time_are_computed()
    {
        Assert.Equal([10.0, 14.0, null], Column<double?>("rest_days"));
        Assert.Equal([16.0, null, null], Column<double?>("ratio"));
        Assert.Equal([195.0, null, null], Column<double?>("brew_time"));
    }

    [Fact]
    public void What_is_missing_is_null_and_no_mean_counts_it()
    {
        var score = (DoubleDataFrameColumn)Frame["score"];
        Assert.Equal([6.0, null, 8.0], Column<double?>("score"));
        Assert.Equal(1, score.NullCount);
        Assert.Equal(7.0, score.Mean());
        Assert.Equal([null, 5.0, null], Column<double?>("body"));
        Assert.Equal(["apricot; plum", null, null], Column<string>("notes"));
    }

    [Fact]
    public void Numbers_are_wide_enough_and_text_that_looks_like_a_number_stays_text()
    {
        Assert.Equal(16777217.0, Frame["price"][0]);
        Assert.Equal(typeof(string), Frame["coffee"].DataType);
        Assert.All(
            ["score", "rest_days", "frozen_days", "position", "dose_g", "price", "body"],
            name => Assert.Equal(typeof(double), Frame[name].DataType));
    }

    [Fact]
    public void A_column_has_its_type_though_its_first_rows_are_empty()
    {
        var text = "tasting_id,bag_id,tasted_at,score,tds_pct\n" + string.Concat(Enumerable.Range(1, 30).Select(i => $"T{i},B1,2025-03-{i:00},,\n")) + "T31,B1,2025-03-31,7,1.35\n";
        var frame = LogInMemory.ReadCups(text).ToDataFrame();

        Assert.Equal(typeof(double), frame["score"].DataType);
        Assert.Equal((7.0, 1.35), (frame["score"][30], frame["tds_pct"][30]));
        Assert.Equal(30, frame["score"].NullCount);
    }

    [Fact]
    public void Times_keep_their_fractions() => Assert.Equal(new DateTime(2025, 3, 14, 8, 30, 15, 250), Frame["tasted_at"][0]);

    [Fact]
    public void The_machines_culture_changes_nothing()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            comma.NumberFormat.NumberGroupSeparator = ".";
            CultureInfo.CurrentCulture = comma;

            var frame = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score,dose_g\nT1,B1,2025-03-14,1.5,15.25\n").ToDataFrame();

            Assert.Equal((1.5, 15.25), (frame["score"][0], frame["dose_g"][0]));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Columns_of_the_log_itself_are_there_and_of_one_name_kept_apart()
    {
        Assert.Equal(["good", null, null], Column<string>("mood"));
        Assert.Equal(["calm", "calm", null], Column<string>("bag: mood"));
        Assert.Equal(["top", "top", null], Column<string>("shelf"));
    }

    [Fact]
    public void A_private_remark_is_not_in_it() => Assert.DoesNotContain(Frame.Columns, column => column.Name == "remark");

    private static IEnumerable<T?> Column<T>(string name) => Enumerable.Range(0, (int)Frame.Rows.Count).Select(row => (T?)Frame[name][row]);
}
