namespace TastingKit.Pages;

/// <summary>Gathers the cells of a page and what they show while a program runs, in the order in which they come.</summary>
internal sealed class PageRecording
{
    private readonly Lock _gate = new();
    private readonly string _name;
    private readonly List<NotebookCell> _cells = [];
    private readonly Dictionary<int, List<CellOutput>> _outputs = [];
    private List<CellOutput>? _current;

    /// <param name="name">The name of the notebook.</param>
    internal PageRecording(string name) => _name = name;

    internal void Prose(string markdown, IReadOnlyDictionary<string, string> attachments)
    {
        lock (_gate)
            _cells.Add(new NotebookCell.Prose(_cells.Count, markdown, attachments));
    }

    internal void Other(string source)
    {
        lock (_gate)
            _cells.Add(new NotebookCell.Other(_cells.Count, source));
    }

    /// <summary>Begins a cell: what is printed and shown from now on is its output.</summary>
    internal void Code(string source, IReadOnlyList<string> tags)
    {
        lock (_gate)
        {
            var number = _outputs.Count + 1;
            _cells.Add(new NotebookCell.Code(_cells.Count, source, number, tags));
            _outputs[number] = _current = [];
        }
    }

    /// <summary>Adds text that was printed; lines written one after the other to one stream are one output.</summary>
    internal void Print(bool isError, string text)
    {
        lock (_gate)
        {
            if (_current is not { } outputs)
                return;
            if (outputs is [.., CellOutput.Printed before] && before.IsError == isError)
                outputs[^1] = before with { Text = before.Text + text };
            else
                outputs.Add(new CellOutput.Printed(isError, text));
        }
    }

    internal void Show(bool isResult, IReadOnlyDictionary<string, string> data)
    {
        lock (_gate)
            _current?.Add(new CellOutput.Shown(isResult, data));
    }

    /// <summary>The page.</summary>
    /// <param name="log">The name of the log; <see langword="null"/> if none was given.</param>
    internal string Write(string? log)
    {
        lock (_gate)
            return NotebookPage.Write(_name, _cells, _outputs.ToDictionary(pair => pair.Key, pair => (IReadOnlyList<CellOutput>)pair.Value), log, null);
    }
}
