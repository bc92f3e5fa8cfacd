namespace TastingKit;

/// <summary>Whether bag means hang together with the order in which the bags were tasted, by permuting whole bags over their times.</summary>
/// <param name="Bags">Bags, each with the mean of its cups at their mean day.</param>
/// <param name="Tau">Kendall's tau-b of means and days, from −1 (always falling) to 1 (always rising).</param>
/// <param name="P">Its two-sided p-value.</param>
/// <param name="Step">The likeliest single step.</param>
/// <param name="Permutations">Orders of the bags that both p-values rest on.</param>
/// <param name="IsExact">Whether these are all orders there are; else they are drawn at random, and the order found is counted among them.</param>
public sealed record BagOrder(int Bags, double Tau, double P, BagStep Step, int Permutations, bool IsExact)
{
    /// <summary>The level at which a rise, a fall or a step is told.</summary>
    internal const double Level = 0.05;

    internal string PermutationsInWords => IsExact ? $"by all {Permutations} orders of {NumberText.Count(Bags, "bag")}" : $"by {Permutations} permutations of {NumberText.Count(Bags, "bag")}";
}

/// <summary>The place where one step fits bag means best.</summary>
/// <param name="After">The mean day of the last bag before it.</param>
/// <param name="By">The mean day of the first bag after it.</param>
/// <param name="MeanBefore">Mean of the bag means before.</param>
/// <param name="MeanAfter">Mean of those after.</param>
/// <param name="P">p-value of no step anywhere.</param>
/// <param name="Near">Changes of water or equipment within thirty days of these two.</param>
public sealed record BagStep(DateOnly After, DateOnly By, double MeanBefore, double MeanAfter, double P, IReadOnlyList<EquipmentChange> Near)
{
    /// <summary>Whether a step is told from none, at 5 %.</summary>
    public bool IsTold => P <= BagOrder.Level;
}
