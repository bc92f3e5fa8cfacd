namespace TastingKit;

/// <summary>How far work that takes long has come.</summary>
/// <param name="Doing">What is being done, in a few words that begin with a verb: <c>drawing variances</c>.</param>
/// <param name="Share">The share of it that is done, from 0 to 1; <see langword="null"/> where that is not known. A step that reports shares ends with 1.</param>
public readonly record struct WorkProgress(string Doing, double? Share);
