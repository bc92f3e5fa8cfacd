namespace TastingKit.Statistics;

/// <summary>Functions of one covariate that together stand for a curve, such as a spline: one column a function.</summary>
/// <remarks>A basis is a <see cref="Column"/>, so it can be a fixed term, a part of an interaction, or the slopes of a random term.</remarks>
public abstract class CovariateBasis : Column
{
    /// <summary>A basis over a covariate's rows.</summary>
    /// <param name="name">The curve's name.</param>
    /// <param name="covariate">The covariate the functions are evaluated at.</param>
    /// <param name="width">Number of functions, at least one.</param>
    protected CovariateBasis(string name, NumericColumn covariate, int width)
        : base(name, (covariate ?? throw new ArgumentNullException(nameof(covariate))).Count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        Covariate = covariate;
        Width = width;
    }

    /// <summary>The covariate; a setting fixes the curve by a value of this covariate's name.</summary>
    public NumericColumn Covariate { get; }

    /// <summary>Number of functions.</summary>
    public int Width { get; }

    /// <summary>The functions at one value of the covariate.</summary>
    /// <param name="covariate">A value in the covariate's unit.</param>
    /// <param name="functions">Receives as many numbers as the basis is wide.</param>
    public abstract void Evaluate(double covariate, Span<double> functions);

    /// <summary>The name of one function, as its coefficient is called.</summary>
    /// <param name="index">Index from 0.</param>
    public virtual string FunctionName(int index) => FormattableString.Invariant($"{Name}{index + 1}");
}
