namespace TastingKit.NotebookHost.Jupyter;

/// <summary>Jupyter and the kernel can't come together; the message says why.</summary>
internal sealed class JupyterException(string message) : Exception(message);
