namespace TastingKit;

/// <summary>The raw scores of one stretch of the calendar.</summary>
/// <param name="From">Its first day.</param>
/// <param name="Label">Its name, for example <c>2025-03</c>, <c>2025 Q1</c> or <c>2014</c>.</param>
/// <param name="Mean">Mean of the scored cups as they are.</param>
/// <param name="Interval">Its 95 % interval, cups clustered in bags; <see langword="null"/> with fewer than three bags.</param>
/// <param name="Cups">Scored cups.</param>
/// <param name="Bags">Bags these came from.</param>
public sealed record CalendarPeriod(DateOnly From, string Label, double Mean, MeanInterval? Interval, int Cups, int Bags);

/// <summary>The 95 % interval of a mean.</summary>
/// <param name="Low">Lower bound.</param>
/// <param name="High">Upper bound.</param>
public sealed record MeanInterval(double Low, double High);
