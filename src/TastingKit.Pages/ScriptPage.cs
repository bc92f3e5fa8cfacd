using System.Runtime.CompilerServices;
using System.Text;

namespace TastingKit.Pages;

/// <summary>
/// The page of a notebook that has become a program: <c>tastingkit script</c> writes such programs, and they need neither
/// Jupyter nor its kernel. Each piece is given in its order, between <see cref="Begin"/> and <see cref="Write"/>; what the
/// program prints meanwhile goes below the cell that printed it. A process makes one page, since it has one console.
/// </summary>
public static class ScriptPage
{
    private static readonly Dictionary<string, string> NoAttachments = [];

    private static PageRecording? _recording;
    private static (TextWriter Out, TextWriter Error) _console;
    private static string? _log;
    private static string _target = "";

    internal static PageRecording Recording =>
        _recording ?? throw new InvalidOperationException($"The page has not begun. Call {nameof(ScriptPage)}.{nameof(Begin)} first.");

    /// <summary>Begins the page. Arguments that can't be used end the process with exit code 2, and a word on those that can.</summary>
    /// <param name="notebook">The notebook's file name.</param>
    /// <param name="arguments">Those of the program: <c>--log FOLDER</c>, once for each folder of the log, and <c>--out FILE.html</c>.</param>
    /// <param name="script">The program's own file, whose name the page takes where none is given.</param>
    /// <exception cref="InvalidOperationException">A page has begun already.</exception>
    public static void Begin(string notebook, string[] arguments, [CallerFilePath] string script = "")
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(notebook);
        ArgumentNullException.ThrowIfNull(arguments);
        if (_recording is not null)
            throw new InvalidOperationException("A page has begun already. A process makes one page.");
        _target = Path.GetFileNameWithoutExtension(script.Length > 0 ? script : notebook) + ".html";
        var folders = new List<string>();
        for (var i = 0; i < arguments.Length; i += 2)
        {
            if (arguments[i] is not ("--log" or "--out") || i + 1 == arguments.Length)
                End($"'{arguments[i]}' is not understood. Expected --log FOLDER (the log; again for each further folder of it) and --out FILE.html (the page), both optional.");
            if (arguments[i] == "--out")
                _target = arguments[i + 1];
            else
                folders.Add(Found(arguments[i + 1]));
        }

        if (folders.Count > 0)
        {
            ScriptedNotebook.LogFolder = string.Join(NotebookLog.Parting, folders);
            _log = string.Join(" + ", folders.Select(Path.GetFileName));
        }

        _recording = new PageRecording(notebook);
        _console = (Console.Out, Console.Error);
        Console.SetOut(new RecordingWriter(_recording, isError: false));
        Console.SetError(new RecordingWriter(_recording, isError: true));
    }

    /// <summary>Adds prose.</summary>
    /// <param name="markdown">The Markdown.</param>
    /// <param name="attachments">Images that it refers to as <c>attachment:name</c>, as data addresses by name.</param>
    public static void Prose(string markdown, IReadOnlyDictionary<string, string>? attachments = null) => Recording.Prose(markdown, attachments ?? NoAttachments);

    /// <summary>Adds a cell that is shown and not run.</summary>
    /// <param name="source">Its text.</param>
    public static void Other(string source) => Recording.Other(source);

    /// <summary>Begins a cell of code: what is printed and shown from now on stands below it.</summary>
    /// <param name="source">The text that the page shows as its code.</param>
    /// <param name="tags">The cell's tags.</param>
    public static void Code(string source, params IReadOnlyList<string> tags) => Recording.Code(source, tags);

    /// <summary>Shows the value of a cell's last expression.</summary>
    /// <param name="value">Any value.</param>
    public static void Show(object? value) => Recording.Show(isResult: true, ShownData.Of(value));

    /// <summary>Writes the page, and says where.</summary>
    /// <exception cref="IOException">It can't be written.</exception>
    public static void Write()
    {
        var page = Recording.Write(_log);
        Console.SetOut(_console.Out);
        Console.SetError(_console.Error);
        File.WriteAllText(_target, page, new UTF8Encoding(false));
        Console.Error.WriteLine($"wrote: {_target}");
    }

    private static string Found(string folder)
    {
        var path = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (!Directory.Exists(path) && !File.Exists(path))
            End($"There is no folder '{folder}'. Expected a folder with bags.csv and tastings.csv, or one flat CSV file.");
        return path;
    }

    private static void End(string message)
    {
        const int NotPossible = 2;
        Console.Error.WriteLine(message);
        Environment.Exit(NotPossible);
    }
}
