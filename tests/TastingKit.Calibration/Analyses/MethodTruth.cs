namespace TastingKit.Calibration;

/// <summary>Whether an answer goes against the truth; an undecided one never does.</summary>
internal static class MethodTruth
{
    public static bool DirectionIsWrong(MethodAnswer answer, double truth) => answer.Direction switch
    {
        Direction.Higher => truth <= 0,
        Direction.Lower => truth >= 0,
        _ => false,
    };

    public static bool SizeIsWrong(MethodAnswer answer, double truth, double margin) => answer.Size switch
    {
        Size.Matters => Math.Abs(truth) < margin,
        Size.TooSmallToMatter => Math.Abs(truth) >= margin,
        _ => false,
    };
}
