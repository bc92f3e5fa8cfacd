using System.Diagnostics;
using System.Globalization;
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
    /// <param name="messages">Gets one line a cell.</param>
    /// <param name="cancel">Ends the run at once.</param>
    /// <returns>Outputs by <see cref="NotebookCell.Code.Number"/>.</returns>
    /// <exception cref="NotebookFailure">A cell failed or took too long; the message names it.</exception>
    /// <exception cref="CommandException">Nothing can be run: the host is missing, or the log can't be read.</exception>
    internal async Task<IReadOnlyDictionary<int, IReadOnlyList<CellOutput>>> RunAsync(RunMessages messages, CancellationToken cancel)
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
                        messages.Cell(_notebook.Name, started.Number, _cells.Length, FirstLine(started.Number));
                        break;
                    case CellProgress { Number: var number, Doing: var doing, Share: var share }:
                        messages.Progress(_notebook.Name, number, doing, share);
                        break;
                    case CellFailed failed:
                        throw Failure(Describe(failed), ExitCode.NotebookFailed);
                    case LogUnreadable unreadable:
                        throw new CommandException(unreadable.Message);
                    case RunFinished:
                        messages.Done(_notebook.Name);
                        return _outputs.Collect();
                    case { } happened:
                        _outputs.Add(happened);
                        break;
                }
            }

            throw Failure($"{Where(_current)}: ended the notebook's process. {Beginning(await complaints)}", ExitCode.NotebookFailed);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw Failure($"{Where(_current)}: took longer than {_cellLimit.TotalSeconds} seconds and was stopped. A longer time can be given with --cell-limit.", ExitCode.CellTooLong);
        }
        finally
        {
            End(host);
        }
    }

    private static Process Start()
    {
        return Process.Start(new ProcessStartInfo(DotnetExecutable.Find(), [KernelFiles.Executable(KernelFiles.OfThisBuild)])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = Utf8,
            StandardOutputEncoding = Utf8,
            StandardErrorEncoding = Utf8,
        })!;
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

    private NotebookFailure Failure(string reason, int exitCode) => new(_notebook.Name, RunMessages.OneLine(reason), exitCode);

    private string Describe(CellFailed failed)
    {
        var line = failed.Line is { } number ? string.Create(CultureInfo.InvariantCulture, $", line {number}") : "";
        var source = failed.Line is { } at && SourceLine(failed.Number, at) is { } text ? $" in: {text.Trim()}" : "";
        return $"{Where(failed.Number)}{line}: {failed.Message} ({failed.Error}){source}";
    }

    private string Where(int number)
    {
        if (number == 0)
            return "before its first cell";
        // Whoever looks for the cell counts those in the file, which lacks the one that was put in.
        var inserted = _cells.FirstOrDefault(cell => cell.IsValues) is { } values && values.Number < number ? " (counting the values set for this run)" : "";
        return string.Create(CultureInfo.InvariantCulture, $"cell {number}{inserted}");
    }

    private string FirstLine(int number) => SourceLine(number, 1)?.Trim() ?? "";

    private string? SourceLine(int number, int line)
    {
        var lines = _cells[number - 1].Source.Split('\n');
        return line <= lines.Length ? lines[line - 1] : null;
    }

    private static string Beginning(string text) => text.Length <= LongestComplaint ? text : string.Concat(text.AsSpan(0, LongestComplaint), "…");
}
