using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.CodeAnalysis.Scripting;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;
using Microsoft.DotNet.Interactive.CSharp;
using Microsoft.DotNet.Interactive.Events;
using Microsoft.DotNet.Interactive.Formatting;
using TastingKit.Notebooks;

namespace TastingKit.NotebookHost;

/// <summary>Runs C# cells one after the other and reports what they show.</summary>
internal sealed class CellKernel : IDisposable
{
    private const string MissingReference = "CS0006";

    private readonly CompositeKernel _composite;
    private readonly CSharpKernel _csharp;
    private readonly Action<HostEvent> _report;
    private readonly IDisposable _subscription;
    private int _number;
    private bool _isRunning;
    private bool _hasFailed;

    internal CellKernel(Action<HostEvent> report)
    {
        _report = report;
        _csharp = new CSharpKernel().UseKernelHelpers();
        _composite = new CompositeKernel { DefaultKernelName = _csharp.Name };
        _composite.Add(_csharp, ["c#", "C#"]);
        _subscription = _composite.KernelEvents.Subscribe(Report);
    }

    /// <summary>The running cell, or the last one that ran; 0 before the first.</summary>
    internal int Number => _number;

    /// <summary>Runs a cell to its end.</summary>
    /// <returns>Whether it ended well.</returns>
    internal async Task<bool> RunAsync(RunRequest.Cell cell)
    {
        _number = cell.Number;
        _hasFailed = false;
        KeepLines(cell.Number);
        _report(new CellStarted(cell.Number));
        _isRunning = true;
        await _composite.SendAsync(new SubmitCode(cell.Source));
        _isRunning = false;
        if (!_hasFailed)
            _report(new CellFinished(cell.Number));
        return !_hasFailed;
    }

    /// <summary>
    /// Ends the running cell as a failure. Code that awaits or watches the cell's token ends; other code goes on unseen.
    /// </summary>
    internal Task InterruptAsync() => CellInterrupt.EndCellAsync(_composite);

    /// <summary>How the word at a place in a cell could go on.</summary>
    /// <param name="code">The cell.</param>
    /// <param name="position">The place, from 0.</param>
    internal async Task<IReadOnlyList<string>> CompleteAsync(string code, int position)
    {
        var result = await _composite.SendAsync(new RequestCompletions(code, PlaceOf(code, position), _csharp.Name));
        return [.. result.Events.OfType<CompletionsProduced>().SelectMany(produced => produced.Completions).Select(item => item.DisplayText)];
    }

    /// <summary>What stands at a place in a cell, as Markdown; <see langword="null"/> if nothing is known of it.</summary>
    /// <param name="code">The cell.</param>
    /// <param name="position">The place, from 0.</param>
    internal async Task<string?> DescribeAsync(string code, int position)
    {
        var result = await _composite.SendAsync(new RequestHoverText(code, PlaceOf(code, position), _csharp.Name));
        return result.Events.OfType<HoverTextProduced>().FirstOrDefault()?.Content.FirstOrDefault()?.Value;
    }

    public void Dispose()
    {
        _subscription.Dispose();
        _composite.Dispose();
    }

    /// <summary>
    /// Has the compiler keep lines, so that an exception can say on which one it arose. The kernel has no option for it; where
    /// a version of it has no such field either, errors at run time come without a line.
    /// </summary>
    private void KeepLines(int number)
    {
        try
        {
            ref var options = ref ScriptOptionsOf(_csharp);
            options = options.WithEmitDebugInformation(true).WithFileEncoding(Encoding.UTF8).WithFilePath(FileName(number));
        }
        catch (MissingFieldException)
        {
        }
    }

    private static string FileName(int number) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"/cell-{number}.cs");

    [UnsafeAccessor(UnsafeAccessorKind.Field, Name = "_scriptOptions")]
    private static extern ref ScriptOptions ScriptOptionsOf(CSharpKernel kernel);

    private void Report(KernelEvent happened)
    {
        switch (happened)
        {
            case StandardOutputValueProduced output:
                _report(new CellPrinted(_number, false, Plain(output)));
                break;
            case StandardErrorValueProduced error:
                _report(new CellPrinted(_number, true, Plain(error)));
                break;
            // The value of an expression that has displayed itself already.
            case ReturnValueProduced { Value: DisplayedValue }:
                break;
            case DisplayedValueUpdated updated:
                _report(new CellDisplayUpdated(_number, updated.ValueId, Bundle(updated)));
                break;
            case DisplayEvent displayed and (ReturnValueProduced or DisplayedValueProduced):
                _report(new CellDisplayed(_number, displayed is ReturnValueProduced, displayed.ValueId, Bundle(displayed)));
                break;
            case CommandFailed failed when _isRunning && !_hasFailed:
                _hasFailed = true;
                _report(Failure(failed));
                break;
        }
    }

    private static LinePosition PlaceOf(string code, int position)
    {
        var before = code.AsSpan(0, position);
        return new LinePosition(before.Count('\n'), position - (before.LastIndexOf('\n') + 1));
    }

    private static string Plain(DisplayEvent displayed) =>
        displayed.FormattedValues.FirstOrDefault(value => value.MimeType == "text/plain")?.Value ?? displayed.Value as string ?? "";

    private static Dictionary<string, string> Bundle(DisplayEvent displayed)
    {
        var bundle = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var value in displayed.FormattedValues)
            bundle[value.MimeType] = value.Value;
        return bundle;
    }

    private CellFailed Failure(CommandFailed failed)
    {
        var compilation = failed.Exception as CompilationErrorException ?? failed.Exception?.InnerException as CompilationErrorException;
        if (compilation?.Diagnostics.FirstOrDefault(d => d.Severity == Microsoft.CodeAnalysis.DiagnosticSeverity.Error) is { } diagnostic)
            return new CellFailed(_number, diagnostic.Location.GetLineSpan().StartLinePosition.Line + 1, diagnostic.Id, Explain(diagnostic));
        return failed.Exception is { } exception
            ? new CellFailed(_number, LineOf(exception), exception.GetType().Name, exception.Message)
            : new CellFailed(_number, null, "Error", failed.Message);
    }

    /// <summary>The compiler's message, and a sentence more where it leaves a notebook's reader alone.</summary>
    private static string Explain(Microsoft.CodeAnalysis.Diagnostic diagnostic)
    {
        var message = diagnostic.GetMessage(System.Globalization.CultureInfo.InvariantCulture);
        return diagnostic.Id == MissingReference
            ? message + ". By name alone only the kit's own assemblies and those of .NET are found; of any other give the path of its file. Packages are not fetched."
            : message;
    }

    /// <summary>The line of the running cell on which the exception, or the one within it, arose.</summary>
    private int? LineOf(Exception exception)
    {
        for (var inner = exception; inner is not null; inner = inner.InnerException)
        {
            foreach (var frame in new StackTrace(inner, true).GetFrames())
            {
                if (frame.GetFileName() == FileName(_number))
                    return frame.GetFileLineNumber();
            }
        }

        return null;
    }
}
