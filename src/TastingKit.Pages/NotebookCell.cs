namespace TastingKit.Pages;

/// <summary>One cell of a notebook.</summary>
public abstract record NotebookCell
{
    private NotebookCell(int index, string source)
    {
        Index = index;
        Source = source;
    }

    /// <summary>The cell's place among all cells, from 0.</summary>
    public int Index { get; }

    /// <summary>The cell's text, lines separated by line feeds.</summary>
    public string Source { get; }

    /// <summary>Handles each case.</summary>
    public T Match<T>(Func<Prose, T> prose, Func<Code, T> code, Func<Other, T> other)
    {
        ArgumentNullException.ThrowIfNull(prose);
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(other);
        return this switch
        {
            Prose cell => prose(cell),
            Code cell => code(cell),
            Other cell => other(cell),
            _ => throw new InvalidOperationException("The cases of NotebookCell are closed."),
        };
    }

    /// <summary>Prose in Markdown.</summary>
    public sealed record Prose : NotebookCell
    {
        internal Prose(int index, string source, IReadOnlyDictionary<string, string> attachments)
            : base(index, source) => Attachments = attachments;

        /// <summary>Images that the prose refers to as <c>attachment:name</c>, as data addresses by name.</summary>
        public IReadOnlyDictionary<string, string> Attachments { get; }
    }

    /// <summary>C# to be run.</summary>
    public sealed record Code : NotebookCell
    {
        /// <summary>The tag of a cell that declares what a run may set.</summary>
        public const string ParametersTag = "parameters";

        /// <summary>The tag of a cell that holds what a run did set.</summary>
        public const string ValuesTag = "injected-parameters";

        internal Code(int index, string source, int number, IReadOnlyList<string> tags)
            : base(index, source)
        {
            Number = number;
            Tags = tags;
        }

        /// <summary>The cell's tags, as its metadata has them.</summary>
        public IReadOnlyList<string> Tags { get; }

        /// <summary>Whether the cell declares what a run may set.</summary>
        public bool IsParameters => Tags.Contains(ParametersTag);

        /// <summary>Whether the cell holds what a run set.</summary>
        public bool IsValues => Tags.Contains(ValuesTag);

        /// <summary>The cell's place among the cells that are run, from 1: its execution count when a notebook is run from the top.</summary>
        public int Number { get; }
    }

    /// <summary>A raw cell, or code in another language: kept as it is, never run.</summary>
    public sealed record Other : NotebookCell
    {
        internal Other(int index, string source)
            : base(index, source)
        {
        }
    }
}
