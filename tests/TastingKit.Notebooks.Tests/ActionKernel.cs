using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;

namespace TastingKit.Notebooks.Tests;

/// <summary>A kernel whose every cell does the same, compiled with the tests.</summary>
internal sealed class ActionKernel(Action cell) : Kernel("action"), IKernelCommandHandler<SubmitCode>
{
    Task IKernelCommandHandler<SubmitCode>.HandleAsync(SubmitCode command, KernelInvocationContext context)
    {
        cell();
        return Task.CompletedTask;
    }
}
