using Microsoft.Data.Analysis;

namespace TastingKit.Tests.Rendering;

public sealed class DataFrameLayoutTests
{
    [Fact]
    public void A_long_frame_shows_its_first_rows_and_says_how_many_there_are()
    {
        var frame = new DataFrame(new Int32DataFrameColumn("cup", Enumerable.Range(1, 5000)));
        var layout = DataFrameLayout.Of(frame);
        Assert.Equal("DataFrame of 5000 rows and 1 column.", Assert.IsType<LayoutBlock.Paragraph>(layout.Blocks[0]).Text);
        var table = Assert.IsType<LayoutBlock.Table>(layout.Blocks[1]).Contents;
        Assert.Equal("The first 20 rows", table.Title);
        Assert.Equal(20, table.Rows.Count);
    }

    [Fact]
    public void What_is_missing_is_blank_and_numbers_have_the_decimals_they_need()
    {
        var frame = new DataFrame(
            new StringDataFrameColumn("coffee", ["Halo Ridge", null]),
            new DoubleDataFrameColumn("score", [7.5, null]),
            new DoubleDataFrameColumn("share", [1.0 / 3, double.NaN]),
            new DateTimeDataFrameColumn("tasted_at", [new DateTime(2025, 3, 4, 8, 30, 0, DateTimeKind.Unspecified), null]),
            new BooleanDataFrameColumn("failed", [true, null]));
        var table = Assert.IsType<LayoutBlock.Table>(DataFrameLayout.Of(frame).Blocks[1]).Contents;
        var cells = CellText.Of(table);
        Assert.Equal(["coffee", "score", "share", "tasted_at", "failed"], cells[0]);
        Assert.Equal(["Halo Ridge", "7.5", "0.3333", "2025-03-04 08:30", "True"], cells[1]);
        Assert.Equal(["", "", "", "", ""], cells[2]);
    }

    [Fact]
    public void An_empty_frame_is_said_to_be_empty()
    {
        var layout = DataFrameLayout.Of(new DataFrame(new Int32DataFrameColumn("cup")));
        Assert.Equal("DataFrame of 0 rows and 1 column.", Assert.IsType<LayoutBlock.Paragraph>(layout.Blocks[0]).Text);
    }
}
