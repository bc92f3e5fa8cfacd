using System.Text;

namespace TastingKit.Pages;

/// <summary>A console stream whose text becomes the output of the running cell.</summary>
internal sealed class RecordingWriter(PageRecording recording, bool isError) : TextWriter(System.Globalization.CultureInfo.InvariantCulture)
{
    public override Encoding Encoding => Encoding.UTF8;

    public override void Write(char value) => Write(value.ToString());

    public override void Write(char[] buffer, int index, int count) => Write(new string(buffer, index, count));

    public override void Write(string? value)
    {
        // Lines end alike on every system, as they do in a notebook's page.
        if (!string.IsNullOrEmpty(value))
            recording.Print(isError, value.ReplaceLineEndings("\n"));
    }
}
