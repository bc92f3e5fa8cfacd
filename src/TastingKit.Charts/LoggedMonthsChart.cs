using System.Globalization;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>Cups and new bags by month.</summary>
internal static class LoggedMonthsChart
{
    private const int MostNumberedBars = 14;

    public static Chart Draw(LoggedYear year)
    {
        if (year.Months.Count == 0)
            return Chart.Nothing(year.Question, "No cup has a date.");
        var busiest = year.Months.MaxBy(month => month.Verdict + month.Other)!;
        var verdict = year.Months.Sum(month => month.Verdict);
        var other = year.Months.Sum(month => month.Other);
        var span = new CalendarSpan([.. year.Months.Select(month => month.Month)], "month");
        return Chart.Draw(
            $"{NumberText.Count(year.Cups, "cup")} of {NumberText.Count(year.Coffees, "coffee")} in {NumberText.Count(year.Bags, "bag")}; the busiest month was {Label(busiest)} with {NumberText.Count(busiest.Verdict + busiest.Other, "cup")}.",
            $"Cups by month: {verdict} with a score for a verdict or cupping, {other} others (dial-in, control, failed or without a score). Diamonds: bags tasted for the first time. Counts, so there are no intervals.",
            Words.AltText(
                "Stacked bars for the number of cups of each month, those scored for a verdict below the others, and a diamond for the number of new bags",
                [.. year.Months.Select(month => $"{Label(month)} {month.Verdict} and {month.Other} cups, {NumberText.Count(month.NewBags, "new bag")}")]),
            Traces(year, span),
            Layout(span),
            Table(year));
    }

    private static Trace[] Traces(LoggedYear year, CalendarSpan span)
    {
        var middles = span.Middles;
        var widths = span.Milliseconds.Select(length => 0.7 * length).ToArray();
        var hovers = year.Months.Select(month => HoverText.Of(
            Label(month), $"{NumberText.Count(month.Verdict, "cup")} with a score", $"{NumberText.Count(month.Other, "other cup")}", NumberText.Count(month.NewBags, "new bag"))).ToArray();
        var areNumbered = year.Months.Count <= MostNumberedBars;
        return
        [
            FigurePart.Trace(
                "bar", ("name", "scored cups"), ("x", middles), ("y", year.Months.Select(month => month.Verdict).ToArray()), ("width", widths),
                ("marker", FigurePart.Of(("color", Palette.Main))),
                ("text", areNumbered ? year.Months.Select(month => month.Verdict == 0 ? "" : NumberText.Fixed(month.Verdict, 0)).ToArray() : null),
                ("textposition", areNumbered ? "inside" : "none"), ("insidetextanchor", "end"), ("textangle", 0), ("constraintext", "none"),
                ("insidetextfont", FigurePart.Of(("color", "#000000"))),
                ("hovertext", hovers), ("hoverinfo", "text")),
            FigurePart.Trace(
                "bar", ("name", "other cups"), ("x", middles), ("y", year.Months.Select(month => month.Other).ToArray()), ("width", widths),
                ("marker", FigurePart.Of(
                    ("color", Palette.Veil(Palette.Quiet, 0x60)),
                    ("pattern", FigurePart.Of(("shape", "/"), ("fgcolor", Palette.Quiet), ("bgcolor", Palette.Veil(Palette.Quiet, 0x20)), ("size", 6), ("fillmode", "replace"))),
                    ("line", FigurePart.Of(("color", Palette.Quiet), ("width", 1))))),
                ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "markers"), ("name", "new bags"), ("x", middles), ("y", year.Months.Select(month => month.NewBags).ToArray()),
                ("marker", FigurePart.Of(("symbol", "diamond"), ("size", 11), ("color", Palette.Second), ("line", FigurePart.Of(("color", "#ffffff"), ("width", 1))))),
                ("cliponaxis", false), ("hoverinfo", "skip")),
        ];
    }

    private static Layout Layout(CalendarSpan span) => FigurePart.Layout(
        ("height", 400),
        ("barmode", "stack"),
        ("hovermode", "x"),
        ("dragmode", false),
        ("xaxis", span.Axis()),
        ("yaxis", FigurePart.Of(
            ("rangemode", "tozero"), ("fixedrange", true), ("tickformat", "d"), ("title", FigurePart.Of(("text", "Cups and bags in the month"))))),
        ("legend", Legends.Above()));

    private static ResultTable Table(LoggedYear year) => new(
        "Cups and new bags by month",
        [
            new TableColumn("what", "Month", ColumnKind.Text),
            new TableColumn("cups", "Scored cups", ColumnKind.Count),
            new TableColumn("other_cups", "Other cups", ColumnKind.Count),
            new TableColumn("bags", "New bags", ColumnKind.Count),
        ],
        [.. year.Months.Select(month => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(month.Month.ToString("yyyy-MM", CultureInfo.InvariantCulture)),
                new TableCell.Count(month.Verdict),
                new TableCell.Count(month.Other),
                new TableCell.Count(month.NewBags),
            ])]);

    private static string Label(MonthCounts month) => month.Month.ToString("MMMM yyyy", CultureInfo.InvariantCulture);
}
