using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>The raw course of the score or an attribute over the calendar, above the number of cups.</summary>
internal static class CalendarCourseChart
{
    private const int MostChangesTold = 12;
    private const int MostLegendEntries = 4;

    public static Chart Draw(CalendarCourse course)
    {
        if (course.Periods.Count == 0)
            return Chart.Nothing(course.Question, $"No {course.PeriodName} has a scored cup.");
        var unit = Words.Unit(course);
        var mean = MeanName(course);
        var step = course.Order?.Step is { IsTold: true } told ? told : null;
        DynamicObj.DynamicObj[] shapes =
        [
            .. step is null ? [] : new[] { Guides.UprightBand(step.After, step.By.AddDays(1)) },
            .. course.EquipmentChanges.Select(change => Guides.Upright(change.ChangedOn, Palette.Second)),
        ];
        var span = new CalendarSpan([.. course.Periods.Select(period => period.From)], course.PeriodName);
        return Chart.Draw(
            // A slope alone would hide that the course turns.
            ShortText.Sentence(course.Trend is { Bend: not Bend.None } ? $"{course.Finding} {course.Summary[1]}" : course.Finding),
            "A raw course is not by itself inflation. "
            + $"{mean} of each {course.PeriodName}\u2019s cups as they are, with its 95 % interval, cups clustered in bags; {NumberText.Count(course.Computation.CupsUsed, "cup")} in all, below by {course.PeriodName}."
            + (step is null ? "" : $" Shaded: the days between which one step in the bag means fits best ({NumberText.Fixed(step.MeanBefore)} to {NumberText.Fixed(step.MeanAfter)}, p {NumberText.P(step.P)}).")
            + Changes(course.EquipmentChanges, " Numbered lines mark changes that touch every cup after them: "),
            Words.AltText(
                $"One mark a {course.PeriodName} for the {mean.ToLowerInvariant()} in {unit} with its 95 % interval, above bars for the number of cups",
                [.. course.Periods.Select(Figures)])
            + Changes(course.EquipmentChanges, " Numbered lines mark changes: "),
            [.. Traces(course, span)],
            Panels.Layout(span, $"{mean} ({unit})", MostLegendEntries).With(
                ("hovermode", "closest"),
                ("yaxis2", Panels.CountAxis("Cups", course.Periods.Max(period => period.Cups))),
                ("shapes", shapes.Length == 0 ? null : shapes)));
    }

    private static IEnumerable<Trace> Traces(CalendarCourse course, CalendarSpan span)
    {
        yield return Panels.Bars(span, "cups", course.Periods.Select(period => period.Cups)).With(
            ("showlegend", false), ("yaxis", "y2"), ("marker", FigurePart.Of(("color", Palette.Quiet))), ("hoverinfo", "skip"));
        var all = Enumerable.Range(0, course.Periods.Count).ToArray();
        var sure = all.Where(i => course.Periods[i].Interval is not null).ToArray();
        if (sure.Length > 0)
        {
            yield return FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "95 % interval"), ("legendrank", 1002),
                ("x", sure.SelectMany(i => new DateOnly?[] { span.Middles[i], span.Middles[i], null }).ToArray()),
                ("y", sure.SelectMany(i => new double?[] { course.Periods[i].Interval!.Low, course.Periods[i].Interval!.High, null }).ToArray()),
                ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))), ("hoverinfo", "skip"));
            yield return Means(course, span, sure, MeanName(course).ToLowerInvariant(), "circle");
        }

        var alone = all.Except(sure).ToArray();
        if (alone.Length > 0)
            yield return Means(course, span, alone, "under three bags, no interval", "circle-open");
        if (course.EquipmentChanges.Count > 0)
            yield return ChangeMarks(course, span);
    }

    private static Trace Means(CalendarCourse course, CalendarSpan span, int[] at, string name, string symbol) => FigurePart.Trace(
        "scatter", ("mode", "markers"), ("name", name), ("legendrank", 1001),
        ("x", at.Select(i => span.Middles[i]).ToArray()), ("y", at.Select(i => course.Periods[i].Mean).ToArray()),
        ("marker", FigurePart.Of(("symbol", symbol), ("size", 11), ("color", Palette.Main), ("line", FigurePart.Of(("width", symbol == "circle" ? 0 : 2))))),
        ("hovertext", at.Select(i => Hover(MeanName(course), course.Periods[i])).ToArray()), ("hoverinfo", "text"));

    private static Trace ChangeMarks(CalendarCourse course, CalendarSpan span)
    {
        var changes = course.EquipmentChanges;
        var top = Top(course);
        return FigurePart.Trace(
            "scatter", ("mode", "markers+text"), ("name", "change of water or equipment"), ("legendrank", 1003),
            ("x", changes.Select(change => change.ChangedOn).ToArray()), ("y", changes.Select(_ => top).ToArray()),
            ("text", Numbers(changes, span)),
            ("textposition", changes.Select(change => change.ChangedOn < span.Centre ? "top right" : "top left").ToArray()),
            ("marker", FigurePart.Of(("symbol", "triangle-down"), ("size", 11), ("color", Palette.Second))), ("cliponaxis", false),
            ("hovertext", changes.Select(change => HoverText.Of(Said(change, 160), $"since {NumberText.Day(change.ChangedOn)}")).ToArray()), ("hoverinfo", "text"));
    }

    /// <summary>Numbers that would overprint each other on a phone stand together at the first of their lines.</summary>
    private static string[] Numbers(IReadOnlyList<EquipmentChange> changes, CalendarSpan span)
    {
        var texts = new string[changes.Count];
        var first = 0;
        for (var i = 0; i < changes.Count; i++)
        {
            var isApart = i == 0 || span.ShareBetween(changes[first].ChangedOn, changes[i].ChangedOn) > 0.06;
            first = isApart ? i : first;
            texts[i] = "";
            texts[first] += isApart ? NumberText.Fixed(i + 1, 0) : $", {NumberText.Fixed(i + 1, 0)}";
        }

        return texts;
    }

    private static string Changes(IReadOnlyList<EquipmentChange> changes, string lead)
    {
        if (changes.Count == 0)
            return "";
        var told = changes.Take(MostChangesTold).Select((change, i) => $"{i + 1} {Said(change, 40)} ({NumberText.Day(change.ChangedOn)})");
        var more = changes.Count > MostChangesTold ? $"; and {changes.Count - MostChangesTold} more" : "";
        return $"{lead}{string.Join("; ", told)}{more}.";
    }

    private static string Said(EquipmentChange change, int width)
    {
        var what = ShortText.Cut(change.What, width);
        return (change.From, change.To) switch
        {
            (null, null) => $"new {what}",
            (null, { } to) => $"{what}: {ShortText.Cut(to, width)}",
            ({ } before, null) => $"{what}: no more {ShortText.Cut(before, width)}",
            ({ } before, { } to) => $"{what}: {ShortText.Cut(before, width)} \u2192 {ShortText.Cut(to, width)}",
        };
    }

    /// <summary>Above every mean and interval.</summary>
    private static double Top(CalendarCourse course)
    {
        var low = course.Periods.Min(period => Math.Min(period.Mean, period.Interval?.Low ?? period.Mean));
        var high = course.Periods.Max(period => Math.Max(period.Mean, period.Interval?.High ?? period.Mean));
        return high > low ? high + (0.08 * (high - low)) : high + 0.5;
    }

    private static string Figures(CalendarPeriod period) =>
        $"{period.Label} {NumberText.Fixed(period.Mean)} ({(period.Interval is { } interval ? NumberText.Interval(interval.Low, interval.High) : "fewer than three bags, no interval")}), {NumberText.Count(period.Cups, "cup")}";

    private static string Hover(string mean, CalendarPeriod period) => HoverText.Of(
        period.Label,
        $"{mean.ToLowerInvariant()} {NumberText.Fixed(period.Mean)}",
        period.Interval is { } interval ? $"95 %: {NumberText.Interval(interval.Low, interval.High)}" : "fewer than three bags: no interval",
        $"{NumberText.Count(period.Cups, "cup")} of {NumberText.Count(period.Bags, "bag")}");

    private static string MeanName(CalendarCourse course) => course.Attribute.Equals(TastingAttribute.Score) ? "Mean score" : $"Mean {course.Attribute}";
}
