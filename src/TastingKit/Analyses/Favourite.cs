namespace TastingKit;

/// <summary>One coffee among the year's favourites: its predicted score under the standard brew, and its place.</summary>
/// <param name="Coffee">The coffee.</param>
/// <param name="Rank">Its place by <paramref name="Estimate"/>, from 1.</param>
/// <param name="Estimate">Predicted score under the standard brew, in points of the log's scale: all that the log says of the coffee and its kind.</param>
/// <param name="Low">Lower bound of its 95 % interval.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
/// <param name="RankLow">Best place within its 95 % rank interval.</param>
/// <param name="RankHigh">Worst place within its 95 % rank interval.</param>
/// <param name="TopProbability">Probability that it belongs among the best so many, as many as the result says.</param>
/// <param name="BestProbability">Probability that it is the best.</param>
/// <param name="PlainMean">Mean of its scored cups as they are.</param>
/// <param name="Cups">Scored cups used.</param>
/// <param name="Bags">Bags these came from.</param>
public sealed record Favourite(
    Coffee Coffee, int Rank, double Estimate, double Low, double High, int RankLow, int RankHigh,
    double TopProbability, double BestProbability, double PlainMean, int Cups, int Bags);

/// <summary>One kind of coffee (a country, a process, a roaster) as the favourites see it.</summary>
/// <param name="Level">The country, process or other level.</param>
/// <param name="Rank">Its place by <paramref name="Estimate"/>, from 1.</param>
/// <param name="Estimate">Expected score of a coffee of this kind under the standard brew, in all else the average of the log's coffees.</param>
/// <param name="Low">Lower bound of its 95 % interval.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
/// <param name="BestProbability">Probability that this kind has the highest expected score of those listed.</param>
/// <param name="PlainMean">Mean of its scored cups as they are.</param>
/// <param name="Cups">Scored cups used.</param>
/// <param name="Coffees">Coffees these came from.</param>
public sealed record FavouriteGroup(
    string Level, int Rank, double Estimate, double Low, double High, double BestProbability, double PlainMean, int Cups, int Coffees);
