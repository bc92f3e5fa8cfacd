namespace TastingKit.Reference;

/// <summary>A case that can't be read as its format says.</summary>
internal sealed class CaseException(string message) : Exception(message);
