namespace TastingKit.Reading;

/// <summary>Why a cell could not be taken.</summary>
/// <param name="Rule">The rule's name, one of <see cref="Rule"/>.</param>
/// <param name="Why">What is wrong with the text, as a sentence.</param>
/// <param name="Expected">What would be accepted.</param>
internal sealed record CellFault(string Rule, string Why, string Expected)
{
    /// <summary>The other values that the finding rests on; see <see cref="LogProblem.Beside"/>.</summary>
    public string Beside { get; init; } = "";
}

/// <summary>What judging a cell gave: a value, or the reason why there is none.</summary>
internal readonly struct Judged<T>
{
    private readonly T? _value;

    private Judged(T? value, CellFault? fault, CellFault? note = null) => (_value, Fault, Note) = (value, fault, note);

    /// <summary>Why there is no value; <see langword="null"/> where there is one.</summary>
    public CellFault? Fault { get; }

    /// <summary>What a reader should know of how the value was read, said once a column; <see langword="null"/> where it is written as it should be.</summary>
    public CellFault? Note { get; }

    /// <summary>A value that was read with some forgiveness.</summary>
    public static Judged<T> Noted(T value, CellFault note) => new(value, null, note);

    /// <summary>The value.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public T Value => Fault is null ? _value! : throw new InvalidOperationException($"The cell was not taken: {Fault.Why}");

    public static implicit operator Judged<T>(T value) => new(value, null);

    public static implicit operator Judged<T>(CellFault fault) => new(default, fault);
}

/// <summary>Judges a cell that is not empty.</summary>
internal delegate Judged<T> CellJudge<T>(Cell cell);
