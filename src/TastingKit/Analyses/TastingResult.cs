using Microsoft.Data.Analysis;

namespace TastingKit;

/// <summary>
/// What an analysis found. Immutable: it carries its estimates, counts, a summary in plain sentences, its cautions and how
/// it was computed, and can be printed, laid out, turned into a DataFrame or drawn.
/// </summary>
public abstract class TastingResult
{
    private readonly Lazy<IReadOnlyList<string>> _summary;
    private readonly Lazy<ResultTable> _table;

    /// <summary>What every result carries.</summary>
    /// <param name="cautions">What a reader must know; empty if nothing.</param>
    /// <param name="computation">How it was computed.</param>
    /// <param name="support">Whether the log supports an answer.</param>
    protected TastingResult(IReadOnlyList<Caution> cautions, Computation computation, Support support)
    {
        Cautions = cautions;
        Computation = computation;
        Support = support;
        _summary = new Lazy<IReadOnlyList<string>>(() => Support.Match(_ => Sentences(), no => [no.Reason, no.WhatToLog]));
        _table = new Lazy<ResultTable>(Tabulate);
    }

    /// <summary>The question answered, in plain words.</summary>
    public abstract string Question { get; }

    /// <summary>What was found in one sentence, with counts: the title of its chart.</summary>
    public string Finding => Summary[0];

    /// <summary>The answer in sentences, <see cref="Finding"/> first; where the log does not support one, why not and what to log.</summary>
    public IReadOnlyList<string> Summary => _summary.Value;

    /// <summary>What a reader must know before repeating the answer; empty if nothing.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>How the answer was computed.</summary>
    public Computation Computation { get; }

    /// <summary>Whether the log supports an answer at all, and if not, why not.</summary>
    public Support Support { get; }

    /// <summary>The estimates as a table: no rows where the log does not support an answer.</summary>
    public ResultTable Table => _table.Value;

    /// <summary>The table as a DataFrame: an interval becomes the columns <c>low</c> and <c>high</c>.</summary>
    public DataFrame ToDataFrame() => Table.ToDataFrame();

    /// <summary>The result laid out as blocks, ready to be rendered as text, Markdown or HTML.</summary>
    public ResultLayout Layout() => ResultLayout.Of(this);

    /// <summary>The result as plain text.</summary>
    public override string ToString() => TextRenderer.Render(Layout());

    /// <summary>The answer in sentences, asked for only where the log supports one.</summary>
    protected abstract IReadOnlyList<string> Sentences();

    /// <summary>The estimates, one row an estimate.</summary>
    protected abstract ResultTable Tabulate();
}

/// <summary>Something a reader must know before repeating an answer.</summary>
/// <param name="Name">Short name, for example <c>few-cups</c>; the same wherever the same caution fires.</param>
/// <param name="Text">The caution as one or two sentences.</param>
public sealed record Caution(string Name, string Text);

/// <summary>Cups that an analysis did not use, and why.</summary>
/// <param name="Reason">The reason in a few words, for example <c>dial-in</c>.</param>
/// <param name="Cups">How many.</param>
public sealed record LeftOut(string Reason, int Cups);

/// <summary>How an answer was computed, in words.</summary>
/// <param name="Model">The model in words.</param>
/// <param name="Estimator">How it was estimated and how the intervals were made.</param>
/// <param name="CupsUsed">Cups the answer rests on.</param>
/// <param name="LeftOut">Cups not used, by reason; empty if none.</param>
/// <param name="Seed">The seed of whatever was random; <see langword="null"/> if nothing was.</param>
public sealed record Computation(string Model, string Estimator, int CupsUsed, IReadOnlyList<LeftOut> LeftOut, ulong? Seed = null);

/// <summary>Whether a log supports an answer.</summary>
public abstract record Support
{
    private Support()
    {
    }

    /// <summary>The log supports the answer, with the cautions that the result carries.</summary>
    public static Support Given { get; } = new Supported();

    /// <summary>Whether the log supports the answer.</summary>
    public bool IsSupported => this is Supported;

    /// <summary>The log does not support the answer.</summary>
    /// <param name="reason">Why, as a sentence with the counts that decide it.</param>
    /// <param name="whatToLog">What to log so that it would.</param>
    public static Support Missing(string reason, string whatToLog) => new NotSupported(reason, whatToLog);

    /// <summary>Handles both cases.</summary>
    public T Match<T>(Func<Supported, T> supported, Func<NotSupported, T> notSupported)
    {
        ArgumentNullException.ThrowIfNull(supported);
        ArgumentNullException.ThrowIfNull(notSupported);
        return this switch
        {
            Supported yes => supported(yes),
            NotSupported no => notSupported(no),
            _ => throw new InvalidOperationException("The cases of Support are closed."),
        };
    }

    /// <summary>The log supports the answer.</summary>
    public sealed record Supported : Support;

    /// <summary>The log does not support the answer.</summary>
    /// <param name="Reason">Why, as a sentence with the counts that decide it.</param>
    /// <param name="WhatToLog">What to log so that it would.</param>
    public sealed record NotSupported(string Reason, string WhatToLog) : Support;
}
