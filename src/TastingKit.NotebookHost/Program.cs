using System.Text;
using System.Text.Json;
using TastingKit;
using TastingKit.NotebookHost;
using TastingKit.NotebookHost.Jupyter;
using TastingKit.Notebooks;

if (args is [JupyterKernel.Argument, var connectionFile])
    return JupyterKernel.Run(connectionFile);

// The standard streams are opened here and now: while a cell runs, the console is the cell's.
using var requests = new StreamReader(Console.OpenStandardInput(), new UTF8Encoding(false));
await using var events = Console.OpenStandardOutput();

if (await requests.ReadLineAsync() is not { } line || JsonSerializer.Deserialize(line, HostJson.Default.RunRequest) is not { } request)
{
    await Console.Error.WriteLineAsync("Started by the command tastingkit: one line of JSON with the cells to run is expected on standard input.");
    return 2;
}

// Whoever started the host holds its standard input open. When it ends, by whatever cause, so does the host, even in the
// midst of a cell that would run forever.
var watch = new Thread(() =>
{
    requests.ReadToEnd();
    Environment.Exit(3);
})
{ IsBackground = true };
watch.Start();

// A terminal interrupts both processes at once; what becomes of the run is for the one that was asked for it.
Console.CancelKeyPress += (_, pressed) => pressed.Cancel = true;

Directory.SetCurrentDirectory(request.WorkingDirectory);
TastingNotebook.LogFolder = request.LogFolder;

// The log is read while the kernel starts: neither is quick the first time, and an unreadable log is better said at once
// than by whichever cell asks for it.
var reading = request.LogFolder is null ? Task.CompletedTask : Task.Run(() => TastingNotebook.Log);
using var kernel = new CellKernel(Send);
TastingNotebook.Progress = new SparseProgress(progress => Send(new CellProgress(kernel.Number, progress.Doing, progress.Share)));
try
{
    await reading;
}
catch (LogReadException error)
{
    Send(new LogUnreadable(error.Message));
    return 1;
}

foreach (var cell in request.Cells)
{
    if (!await kernel.RunAsync(cell))
        return 1;
}

Send(new RunFinished());
return 0;

void Send(HostEvent happened)
{
    var json = JsonSerializer.SerializeToUtf8Bytes(happened, HostJson.Default.HostEvent);
    lock (events)
    {
        events.Write(json);
        events.WriteByte((byte)'\n');
        events.Flush();
    }
}
