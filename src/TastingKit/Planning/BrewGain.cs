namespace TastingKit;

/// <summary>A cup that could be brewed next.</summary>
/// <param name="Bag">The bag.</param>
/// <param name="Brewer">The brewer; <see langword="null"/> where the log names none.</param>
/// <param name="RecipeFrom">Whose recipe; <see langword="null"/> where the log names none.</param>
/// <param name="Day">The day.</param>
/// <param name="Position">Its place among the day's cups, from 1.</param>
/// <param name="RestDays">Effective rest in days on that day; <see langword="null"/> where the bag has no roast date.</param>
/// <param name="GramsLeft">Grams left in the bag before it.</param>
/// <param name="IsSealed">Whether it would open the bag: no cup of it is logged, nor a day on which it was opened.</param>
public sealed record BrewCandidate(
    Bag Bag, string? Brewer, string? RecipeFrom, DateOnly Day, int Position, int? RestDays, double GramsLeft, bool IsSealed)
{
    /// <summary>The brew in words, for example <c>cone dripper, house recipe</c>.</summary>
    public string Brew => new StandardBrew(Brewer, RecipeFrom, null).ToString();

    /// <summary>The cup in words.</summary>
    public override string ToString() => $"{Bag.Coffee.Label}, {Brew}";
}

/// <summary>What a question's answer stands at, or would stand at.</summary>
/// <param name="Value">
/// Half of the 95 % interval, in points of the scale, where one number is asked; the probability of naming the right one, where the best of
/// several is.
/// </param>
/// <param name="IsProbability">Which of the two it is.</param>
public sealed record BrewStand(double Value, bool IsProbability);

/// <summary>What one cup is expected to do for the question.</summary>
/// <param name="Candidate">The cup.</param>
/// <param name="Gain">The share by which it shrinks the variance of the answer, from 0 to 1; or by how much it raises the probability of naming the best.</param>
/// <param name="After">Where the answer would stand after it.</param>
/// <param name="CupsSoFar">Scored cups of its coffee so far.</param>
/// <param name="Reason">Why, in words that rest on the other candidates and on the cups so far.</param>
public sealed record BrewGain(BrewCandidate Candidate, double Gain, BrewStand After, int CupsSoFar, string Reason);

/// <summary>One cup of a plan.</summary>
/// <param name="Candidate">The cup.</param>
/// <param name="After">Where the answer would stand after it and all before it.</param>
public sealed record PlannedBrew(BrewCandidate Candidate, BrewStand After);

/// <summary>Bags that were not considered, and why.</summary>
/// <param name="Reason">The reason in a few words.</param>
/// <param name="Bags">How many.</param>
public sealed record BagsLeftOut(string Reason, int Bags);
