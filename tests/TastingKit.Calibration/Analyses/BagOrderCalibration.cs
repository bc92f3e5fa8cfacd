namespace TastingKit.Calibration;

/// <summary>How often the tests by the order of bags tell a rise, a fall or a step where nothing changes over the year but which coffees happen to be bought.</summary>
public sealed class BagOrderCalibration(Func<TastingLog, CalendarCourse> analyse) : ICalibratedAnalysis
{
    private const double Level = 0.05;

    /// <inheritdoc/>
    public string Name => "bag order";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var settings = year.Truth.Settings;
        var course = analyse(year.Log);
        foreach (var caution in course.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (course.Order is not { } order)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        var nothingChanges = settings.Taster.DriftPerYear == 0 && settings.Quality.BuyingTrendPerYear == 0 && settings.Schedule.Changes.Count == 0;
        if (nothingChanges)
        {
            record.Count($"{Name}: a rise or fall told where there is none", order.P <= Level);
            record.Count($"{Name}: a step told where there is none", order.Step.P <= Level);
            return;
        }

        record.Find($"{Name}: a rise or fall told where something changes (reported)", order.P <= Level);
        record.Find($"{Name}: a step told where something changes (reported)", order.Step.P <= Level);
    }
}
