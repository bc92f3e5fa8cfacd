using System.Text.Json.Nodes;

namespace TastingKit.Cli.Tests.Architecture;

/// <summary>How the repository's notebooks are stored.</summary>
public sealed class NotebookFormatTests
{
    /// <summary>
    /// Jupyter's notebook 6 gives a cell that a reader adds no identifier. In the format 4.5, which wants one, it gets it after the
    /// notebook was signed, and on being opened again the notebook is not trusted: its charts are not drawn. 4.4 knows none.
    /// </summary>
    [Fact]
    public void Notebooks_have_the_format_that_stays_trusted_when_a_cell_is_added()
    {
        var paths = Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "notebooks"), "*.ipynb");
        Assert.NotEmpty(paths);
        foreach (var path in paths)
        {
            var notebook = JsonNode.Parse(File.ReadAllText(path))!;
            var cells = notebook["cells"]!.AsArray();
            Assert.True(
                (int)notebook["nbformat"]! == 4 && (int)notebook["nbformat_minor"]! == 4 && cells.All(cell => cell!["id"] is null) && cells.All(cell => cell!["outputs"] is null or JsonArray { Count: 0 }),
                $"{Path.GetFileName(path)}: expected nbformat 4, nbformat_minor 4, no cell with an id, and no outputs.");
        }
    }
}
