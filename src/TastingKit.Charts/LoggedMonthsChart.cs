using System.Globalization;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>Cups by month, above the bags that were new in it.</summary>
internal static class LoggedMonthsChart
{
    private const int LegendEntries = 3;

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
            $"Cups by month: {verdict} with a score for a verdict or cupping, {NumberText.Count(other, "other")} (dial-in, control, failed or without a score). Below, bags tasted for the first time. Counts, so there are no intervals.",
            Words.AltText(
                "Stacked bars for the number of cups of each month, those scored for a verdict below the others, above bars for the number of new bags",
                [.. year.Months.Select(month => $"{Label(month)} {month.Verdict} scored and {NumberText.Count(month.Other, "other cup")}, {NumberText.Count(month.NewBags, "new bag")}")]),
            Traces(year, span),
            Panels.Layout(span, "Cups in the month", LegendEntries)
                .With(("barmode", "stack"), ("hovermode", "x"), ("yaxis2", Panels.CountAxis("New bags", year.Months.Max(month => month.NewBags)))),
            Table(year));
    }

    private static Trace[] Traces(LoggedYear year, CalendarSpan span)
    {
        var hovers = year.Months.Select(month => HoverText.Of(
            Label(month), $"{NumberText.Count(month.Verdict, "cup")} with a score", $"{NumberText.Count(month.Other, "other cup")}", NumberText.Count(month.NewBags, "new bag"))).ToArray();
        return
        [
            Panels.Bars(span, "scored cups", year.Months.Select(month => month.Verdict)).With(
                ("marker", FigurePart.Of(("color", Palette.Main))),
                ("textposition", "inside"), ("insidetextanchor", "end"), ("constraintext", "none"), ("insidetextfont", FigurePart.Of(("color", "#000000"))),
                ("hovertext", hovers), ("hoverinfo", "text")),
            Panels.Bars(span, "other cups", year.Months.Select(month => month.Other)).With(
                ("marker", FigurePart.Of(
                    ("color", Palette.Veil(Palette.Quiet, 0x60)),
                    ("pattern", FigurePart.Of(("shape", "/"), ("fgcolor", Palette.Quiet), ("bgcolor", Palette.Veil(Palette.Quiet, 0x20)), ("size", 6), ("fillmode", "replace"))),
                    ("line", FigurePart.Of(("color", Palette.Quiet), ("width", 1))))),
                ("textposition", "none"), ("hoverinfo", "skip")),
            Panels.Bars(span, "new bags", year.Months.Select(month => month.NewBags)).With(
                ("yaxis", "y2"), ("marker", FigurePart.Of(("color", Palette.Second))), ("hoverinfo", "skip")),
        ];
    }

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
