using TastingKit.NotebookHost;
using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>Gathers what the host reports into the outputs of each cell.</summary>
internal sealed class OutputsByCell
{
    private readonly SortedDictionary<int, List<CellOutput>> _outputs = [];
    private readonly Dictionary<string, (List<CellOutput> Cell, int Index)> _byDisplayId = new(StringComparer.Ordinal);

    internal void Add(HostEvent happened)
    {
        switch (happened)
        {
            case CellPrinted printed:
                Print(OutputsOf(printed.Number), printed);
                break;
            case CellDisplayed displayed:
                var cell = OutputsOf(displayed.Number);
                if (displayed.DisplayId is { } id)
                    _byDisplayId[id] = (cell, cell.Count);
                cell.Add(new CellOutput.Shown(displayed.IsResult, displayed.Data));
                break;
            case CellDisplayUpdated updated when _byDisplayId.TryGetValue(updated.DisplayId, out var place):
                place.Cell[place.Index] = new CellOutput.Shown(false, updated.Data);
                break;
            case CellFinished finished:
                _ = OutputsOf(finished.Number);
                break;
        }
    }

    internal IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> Collect() =>
        _outputs.ToDictionary(pair => pair.Key, pair => (IReadOnlyList<CellOutput>)pair.Value);

    private List<CellOutput> OutputsOf(int number)
    {
        if (!_outputs.TryGetValue(number, out var outputs))
            _outputs[number] = outputs = [];
        return outputs;
    }

    /// <summary>Lines written one after the other to one stream are one output.</summary>
    private static void Print(List<CellOutput> outputs, CellPrinted printed)
    {
        if (outputs.Count > 0 && outputs[^1] is CellOutput.Printed before && before.IsError == printed.IsError)
            outputs[^1] = before with { Text = before.Text + printed.Text };
        else
            outputs.Add(new CellOutput.Printed(printed.IsError, printed.Text));
    }
}
