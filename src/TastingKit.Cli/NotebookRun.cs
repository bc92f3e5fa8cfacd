using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using TastingKit.NotebookHost;
using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>
/// Runs a notebook's cells in a process of its own: displays, console and working directory belong to a process, and only
/// a process can be ended in the midst of a cell.
/// </summary>
internal sealed class NotebookRun
{
    private const int LongestComplaint = 200;

    private static readonly TimeSpan StartLimit = TimeSpan.FromMinutes(1);

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly NotebookDocument _notebook;
    private readonly NotebookCell.Code[] _cells;
    private readonly RunRequest _request;
    private readonly TimeSpan _cellLimit;
    private readonly OutputsByCell _outputs = new();
    private int _current;

    internal NotebookRun(NotebookDocument notebook, string workingDirectory, string? logFolder, TimeSpan cellLimit)
    {
        _notebook = notebook;
        _cells = [.. notebook.Cells.OfType<NotebookCell.Code>()];
        _request = new RunRequest([.. _cells.Select(cell => new RunRequest.Cell(cell.Number, cell.Source))], workingDirectory, logFolder);
        _cellLimit = cellLimit;
    }

    /// <summary>Runs the cells in their order.</summary>
    /// <param name="progress">Gets one line a cell.</param>
    /// <param name="cancel">Ends the run at once.</param>
    /// <returns>Outputs by <see cref="NotebookCell.Code.Number"/>.</returns>
    /// <exception cref="CommandException">A cell failed or took too long; the message names it.</exception>
    internal async Task<IReadOnlyDictionary<int, IReadOnlyList<CellOutput>>> RunAsync(TextWriter progress, CancellationToken cancel)
    {
        using var host = Start();
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        try
        {
            var complaints = host.StandardError.ReadToEndAsync(CancellationToken.None);
            await host.StandardInput.WriteLineAsync(JsonSerializer.Serialize(_request, HostJson.Default.RunRequest).AsMemory(), limit.Token);
            await host.StandardInput.FlushAsync(limit.Token);
            limit.CancelAfter(_cellLimit + StartLimit);
            while (await host.StandardOutput.ReadLineAsync(limit.Token) is { } line)
            {
                switch (JsonSerializer.Deserialize(line, HostJson.Default.HostEvent))
                {
                    case CellStarted started:
                        _current = started.Number;
                        limit.CancelAfter(_cellLimit);
                        await progress.WriteLineAsync($"cell {started.Number} of {_cells.Length}: {FirstLine(started.Number)}");
                        break;
                    case CellFailed failed:
                        throw new CommandException(Describe(failed));
                    case LogUnreadable unreadable:
                        throw new CommandException(unreadable.Message);
                    case RunFinished:
                        return _outputs.Collect();
                    case { } happened:
                        _outputs.Add(happened);
                        break;
                }
            }

            throw new CommandException($"{Where(_current)} ended the notebook's process. {Beginning(OneLine(await complaints))}");
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw new CommandException($"{Where(_current)} took longer than {_cellLimit.TotalSeconds} seconds and was stopped. A longer time can be given with --cell-limit.");
        }
        finally
        {
            End(host);
        }
    }

    private static Process Start()
    {
        var host = Path.Combine(AppContext.BaseDirectory, "host", "TastingKit.NotebookHost.dll");
        if (!File.Exists(host))
            throw new CommandException($"The notebook host is missing: there is no '{host}'. Build the solution again.");
        return Process.Start(new ProcessStartInfo(Dotnet(), [host])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = Utf8,
            StandardOutputEncoding = Utf8,
            StandardErrorEncoding = Utf8,
        })!;
    }

    /// <summary>The dotnet that runs this very process, so that both use one runtime.</summary>
    private static string Dotnet()
    {
        var name = OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet";
        var beside = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", name));
        return File.Exists(beside) ? beside : name;
    }

    private static void End(Process host)
    {
        try
        {
            host.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It has ended by itself.
        }

        host.WaitForExit();
    }

    private string Describe(CellFailed failed)
    {
        var message = new StringBuilder(Where(failed.Number));
        message.Append(" failed");
        if (failed.Line is { } line)
            message.Append(System.Globalization.CultureInfo.InvariantCulture, $" on its line {line}");
        message.Append(System.Globalization.CultureInfo.InvariantCulture, $": {OneLine(failed.Message)} ({failed.Error})");
        if (failed.Line is { } at && SourceLine(failed.Number, at) is { } source)
            message.Append(System.Globalization.CultureInfo.InvariantCulture, $"\n    {source.Trim()}");
        return message.ToString();
    }

    private string Where(int number) => number == 0 ? _notebook.Name : $"Cell {number} of {_notebook.Name}";

    private string FirstLine(int number) => SourceLine(number, 1)?.Trim() ?? "";

    private string? SourceLine(int number, int line)
    {
        var lines = _cells[number - 1].Source.Split('\n');
        return line <= lines.Length ? lines[line - 1] : null;
    }

    private static string Beginning(string text) => text.Length <= LongestComplaint ? text : string.Concat(text.AsSpan(0, LongestComplaint), "…");

    private static string OneLine(string text) =>
        string.Join(' ', text.Split(['\r', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
}
