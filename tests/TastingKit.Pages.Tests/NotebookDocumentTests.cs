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

    /// <summary>Spacing, escapes and order as other programs write them, and cells that are none of the kit's business.</summary>
    private const string Unusual =
        "{\r\n\t\"nbformat\" : 4, \"nbformat_minor\":5, \"metadata\":{ \"kernelspec\" : {\"language\":\"C#\"}, \"e\":1.50e+0 },\r\n" +
        "\"cells\":[ {\"cell_type\":\"raw\",\"metadata\":{\"format\":\"text\\/latex\"},\"source\":\"\\u00e9 \\ud83d\\ude00 é \\/ $x$\",\"id\":\"r\"}\r\n ,\r\n" +
        "{\"attachments\":{\"a.png\":{\"image\\/png\":\"AAAA\"}},\"cell_type\":\"markdown\",\"source\":[\"a\\n\" , \"b\"],\"metadata\":{}},\n" +
        "{\"cell_type\":\"code\",\"source\":\"#!fsharp\\nlet x = 1\",\"outputs\" : [ {\"name\":\"stdout\",\"output_type\":\"stream\",\"text\":\"kept\"} ],\"execution_count\":9,\"metadata\":{}},\n" +
        "{\"cell_type\":\"code\",\"outputs\" : [@OUT1@],\"source\":\"1\",\"metadata\":{\"a\":[ ]},\"execution_count\":@COUNT1@},\n" +
        "{\"cell_type\":\"code\",\"source\":\"2\",\"metadata\":{}@REST2@ } ]}";

    [Fact]
    public void All_but_the_outputs_of_its_own_cells_stays_to_the_byte()
    {
        static string Unusually(string outputs, string count, string rest) => Unusual
            .Replace("@OUT1@", outputs, StringComparison.Ordinal).Replace("@COUNT1@", count, StringComparison.Ordinal).Replace("@REST2@", rest, StringComparison.Ordinal);

        var before = Unusually("", "8", "");
        var notebook = NotebookDocument.Parse("n", before);
        var output = "\n    {\n     \"name\": \"stdout\",\n     \"output_type\": \"stream\",\n     \"text\": [\n      \"said\\n\"\n     ]\n    }\n   ";
        Assert.Equal(
            Unusually(output, "1", ",\n   \"execution_count\": null,\n   \"outputs\": []"),
            notebook.WithOutputs(Notebooks.Outputs([new CellOutput.Printed(false, "said\n")])));
    }

    [Fact]
    public void Values_are_put_in_as_a_cell_of_their_own_and_nothing_else_changes()
    {
        var before = Unusual.Replace("@OUT1@", "", StringComparison.Ordinal).Replace("@COUNT1@", "null", StringComparison.Ordinal).Replace("@REST2@", "", StringComparison.Ordinal);
        var notebook = NotebookDocument.Parse("n", before);
        var with = notebook.WithValues(3, "top = 3;\nall = true;");
        Assert.Equal([1, 2, 3], with.Cells.OfType<NotebookCell.Code>().Select(cell => cell.Number));
        var values = with.Cells.OfType<NotebookCell.Code>().ElementAt(1);
        Assert.True(values.IsValues);
        Assert.Equal("top = 3;\nall = true;", values.Source);
        var after = with.WithOutputs(Notebooks.Outputs());
        var start = after.IndexOf(",\n  {\n   \"cell_type\": \"code\"", StringComparison.Ordinal);
        var end = after.IndexOf("\n  }", start, StringComparison.Ordinal) + "\n  }".Length;
        Assert.Equal(notebook.WithOutputs(Notebooks.Outputs()), after.Remove(start, end - start));
        Assert.Throws<ArgumentOutOfRangeException>(() => notebook.WithValues(5, ""));
    }

    [Theory]
    [InlineData("# Title\n\nOne *small* sentence, of 3.5 words. Another.", "One small sentence, of 3.5 words.")]
    [InlineData("# Title\n\nOver\ntwo lines", "Over two lines")]
    [InlineData("# Title", "")]
    public void The_description_is_the_first_sentence(string prose, string description) =>
        Assert.Equal(description, Notebooks.Of(("markdown", prose), ("code", "1")).Description);

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
