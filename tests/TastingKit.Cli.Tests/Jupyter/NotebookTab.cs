using System.Globalization;
using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>A notebook open in Jupyter's notebook 6, and its buttons. Cells are counted among those with code, from 0.</summary>
internal sealed class NotebookTab
{
    /// <summary>Of all cells together, on a small machine that is busy.</summary>
    private static readonly TimeSpan RunLimit = TimeSpan.FromMinutes(8);

    private const string Cells = "Jupyter.notebook.get_cells().filter(cell => cell.cell_type === 'code')";

    private NotebookTab(BrowserPage page) => Page = page;

    internal BrowserPage Page { get; }

    internal static async Task<NotebookTab> OpenAsync(Browser browser, string address)
    {
        var tab = new NotebookTab(await browser.OpenAsync(address));
        await tab.Page.WaitAsync("window.Jupyter && Jupyter.notebook && Jupyter.notebook.kernel && Jupyter.notebook.kernel.is_connected() && Jupyter.notebook._fully_loaded");
        return tab;
    }

    /// <summary>Runs all cells by the menu, and waits until the last is done.</summary>
    internal async Task RunAllAsync()
    {
        await Page.EvaluateAsync("document.querySelector('#run_all_cells a').click()");
        await WaitUntilDoneAsync();
    }

    /// <summary>Runs one cell by its button.</summary>
    internal async Task RunAsync(int cell)
    {
        await BeginAsync(cell);
        await WaitUntilDoneAsync();
    }

    /// <summary>Presses the button that runs one cell.</summary>
    internal async Task BeginAsync(int cell)
    {
        await Page.EvaluateAsync($"Jupyter.notebook.select(Jupyter.notebook.find_cell_index({Cell(cell)})), true");
        await PressAsync("run-cell-and-select-next");
    }

    /// <summary>Types a line at the beginning of a cell.</summary>
    internal async Task TypeFirstLineAsync(int cell, string line)
    {
        await Page.EvaluateAsync($"{Cell(cell)}.focus_editor(), {Cell(cell)}.code_mirror.setCursor(0, 0), true");
        await Page.TypeAsync(line + "\n");
    }

    /// <summary>Presses the button that adds an empty cell.</summary>
    internal Task AddCellAsync() => PressAsync("insert-cell-below");

    /// <summary>Waits until no cell runs or waits.</summary>
    internal Task WaitUntilDoneAsync() => Page.WaitAsync($"!Jupyter.notebook.kernel_busy && {Cells}.every(cell => cell.input_prompt_number !== '*')", RunLimit);

    internal Task InterruptAsync() => PressAsync("interrupt-kernel");

    internal async Task SaveAsync()
    {
        await PressAsync("save-notebook");
        await Page.WaitAsync("!Jupyter.notebook.dirty");
    }

    internal async Task<int> CodeCellsAsync() => (int)(await Page.EvaluateAsync($"{Cells}.length"))!;

    internal async Task<int> ChartsOfAsync(int cell) => (int)(await Page.EvaluateAsync($"{Cell(cell)}.element[0].querySelectorAll('figure.tk-chart[data-state=drawn]').length"))!;

    /// <summary>How many charts the kernel has sent, whatever became of them.</summary>
    internal async Task<int> ChartsInOutputsAsync() => (int)(await Page.EvaluateAsync(
        $"{Cells}.flatMap(cell => cell.output_area.outputs).map(output => (output.data || {{}})['text/html'] || '').join('').split('<figure class=\"tk tk-chart').length - 1"))!;

    /// <summary>Whether a cell has a number beside it.</summary>
    internal async Task<bool> HasRunAsync(int cell) => (bool)(await Page.EvaluateAsync($"/\\d/.test({Cell(cell)}.element[0].querySelector('.input_prompt').innerText)"))!;

    /// <summary>What stands below a cell, as it is seen.</summary>
    internal async Task<string> OutputAsync(int cell) => (string)(await Page.EvaluateAsync($"{Cell(cell)}.element[0].querySelector('.output').innerText"))!;

    /// <summary>The messages of cells that failed.</summary>
    internal async Task<string> ErrorsAsync() => (string)(await Page.EvaluateAsync("[...document.querySelectorAll('.output_error')].map(error => error.innerText).join('; ')"))!;

    /// <summary>Keeps a picture for a person to look at, where a folder for them is named by <c>TASTINGKIT_PICTURES</c>.</summary>
    internal async Task KeepPictureAsync(string name)
    {
        if (Environment.GetEnvironmentVariable("TASTINGKIT_PICTURES") is { } folder)
            await File.WriteAllBytesAsync(Path.Combine(folder, name + ".png"), await Page.PictureAsync());
    }

    private Task PressAsync(string action) => Page.EvaluateAsync($"document.querySelector('button[data-jupyter-action=\"jupyter-notebook:{action}\"]').click()");

    private static string Cell(int cell) => string.Create(CultureInfo.InvariantCulture, $"{Cells}[{cell}]");
}
