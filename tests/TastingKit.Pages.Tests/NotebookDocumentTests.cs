using System.Text.Json.Nodes;

namespace TastingKit.Pages.Tests;

public sealed class NotebookDocumentTests
{
    [Fact]
    public void Code_cells_are_numbered_as_they_run_and_others_are_left_alone()
    {
        var notebook = Notebooks.Of(("markdown", "# Title"), ("code", "1"), ("raw", "raw"), ("code", "#!fsharp\nlet x = 1"), ("code", "%%python\nx"), ("code", "2\n3"));
        Assert.Equal([1, 2], notebook.Cells.OfType<NotebookCell.Code>().Select(cell => cell.Number));
        Assert.Equal(["1", "2\n3"], notebook.Cells.OfType<NotebookCell.Code>().Select(cell => cell.Source));
        Assert.Equal(3, notebook.Cells.OfType<NotebookCell.Other>().Count());
        Assert.Equal(5, notebook.Cells[^1].Index);
        Assert.Equal("Title", notebook.Title);
    }

    [Theory]
    [InlineData("#!import other.dib")]
    [InlineData("#!csharp\n1")]
    [InlineData("#r \"x\"")]
    public void A_first_line_that_names_no_other_language_is_run(string source) =>
        Assert.IsType<NotebookCell.Code>(Assert.Single(Notebooks.Of(("code", source)).Cells));

    [Fact]
    public void A_cell_whose_metadata_names_another_language_is_left_alone()
    {
        var json = Notebooks.Json(("code", "let x = 1"));
        json["cells"]![0]!["metadata"] = new JsonObject { ["polyglot_notebook"] = new JsonObject { ["kernelName"] = "fsharp" } };
        Assert.IsType<NotebookCell.Other>(Assert.Single(NotebookDocument.Parse("n", json.ToJsonString()).Cells));
    }

    [Fact]
    public void A_source_may_be_a_list_of_lines()
    {
        var json = Notebooks.Json(("code", ""));
        json["cells"]![0]!["source"] = new JsonArray("one\n", "two");
        Assert.Equal("one\ntwo", Assert.Single(NotebookDocument.Parse("n", json.ToJsonString()).Cells).Source);
    }

    [Fact]
    public void An_executed_notebook_has_new_outputs_and_is_otherwise_as_it_was()
    {
        var json = Notebooks.Json(("markdown", "![p](attachment:a.png)"), ("code", "1"), ("raw", "raw"), ("code", "2"));
        json["cells"]![0]!["attachments"] = new JsonObject { ["a.png"] = new JsonObject { ["image/png"] = "AAAA" } };
        json["metadata"]!["mine"] = "kept";
        var notebook = NotebookDocument.Parse("n", json.ToJsonString());

        var executed = JsonNode.Parse(notebook.WithOutputs(Notebooks.Outputs(
            [new CellOutput.Printed(false, "a\nb"), new CellOutput.Printed(true, "no"), Notebooks.Html("<b>\nx</b>"), Notebooks.Shown("application/json", "{\"a\":1}")])))!;

        var first = executed["cells"]![1]!;
        Assert.Equal(1, (int)first["execution_count"]!);
        Assert.Equal(
            """[{"name":"stdout","output_type":"stream","text":["a\n","b"]},{"name":"stderr","output_type":"stream","text":["no"]},{"data":{"text/html":["\u003Cb\u003E\n","x\u003C/b\u003E"],"text/plain":["plain"]},"execution_count":1,"metadata":{},"output_type":"execute_result"},{"data":{"application/json":{"a":1}},"execution_count":1,"metadata":{},"output_type":"execute_result"}]""",
            first["outputs"]!.ToJsonString());

        // The second cell did not run: it keeps nothing of an earlier run.
        Assert.Null(executed["cells"]![3]!["execution_count"]);
        Assert.Empty(executed["cells"]![3]!["outputs"]!.AsArray());

        foreach (var untouched in new[] { "metadata", "nbformat", "nbformat_minor" })
            Assert.True(JsonNode.DeepEquals(json[untouched], executed[untouched]), untouched);
        Assert.True(JsonNode.DeepEquals(json["cells"]![0], executed["cells"]![0]));
        Assert.True(JsonNode.DeepEquals(json["cells"]![2], executed["cells"]![2]));
    }

    [Theory]
    [InlineData("{}", "it has no list of cells")]
    [InlineData("[1]", "it has no list of cells")]
    [InlineData("{\n\"cells\": [\n}", "its line 3 is not JSON")]
    [InlineData("""{"cells":[],"nbformat":3}""", "version 3")]
    [InlineData("""{"cells":[7],"nbformat":4}""", "is no notebook")]
    [InlineData("""{"cells":[],"nbformat":4,"metadata":{"kernelspec":{"language":"python"}}}""", "written for 'python'. Expected a notebook whose kernel runs C#")]
    public void What_is_no_notebook_in_CSharp_is_refused_with_the_reason(string json, string reason)
    {
        var error = Assert.Throws<NotebookException>(() => NotebookDocument.Parse("mine.ipynb", json));
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
        Assert.StartsWith("mine.ipynb", error.Message, StringComparison.Ordinal);
    }
}
