namespace TastingKit.Charts;

/// <summary>How the two answers of a difference are drawn and worded alike in every chart: the direction by the mark, the size in words.</summary>
internal static class MethodMarks
{
    private static readonly RowMark Higher = new("first scores higher", "triangle-right", Palette.Main);
    private static readonly RowMark Lower = new("first scores lower", "triangle-left", Palette.Second);
    private static readonly RowMark More = new("a step more scores higher", "triangle-right", Palette.Main);
    private static readonly RowMark Less = new("a step more scores lower", "triangle-left", Palette.Second);
    private static readonly RowMark Undecided = new("undecided", "circle-open", Palette.Quiet);

    public static RowMark OfPair(MethodAnswer answer) => Of(answer, Higher, Lower);

    public static RowMark OfStep(MethodAnswer answer) => Of(answer, More, Less);

    /// <summary>The size alone, where the mark tells the direction.</summary>
    public static string Size(MethodAnswer answer) => answer.Size switch
    {
        TastingKit.Size.Matters => "matters",
        TastingKit.Size.TooSmallToMatter => "too small to matter",
        _ => answer.Direction == Direction.Undecided ? "undecided" : "size undecided",
    };

    public static string Verdict(MethodAnswer answer) => answer.Direction switch
    {
        Direction.Higher => $"higher, {Size(answer)}",
        Direction.Lower => $"lower, {Size(answer)}",
        _ => Size(answer),
    };

    /// <summary>The estimate with its interval.</summary>
    public static string Figures(MethodAnswer answer) => $"{NumberText.Difference(answer.Estimate)} ({NumberText.DifferenceInterval(answer.Low, answer.High)})";

    private static RowMark Of(MethodAnswer answer, RowMark higher, RowMark lower) => answer.Direction switch
    {
        Direction.Higher => higher,
        Direction.Lower => lower,
        _ => Undecided,
    };
}
