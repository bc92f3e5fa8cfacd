namespace TastingKit;

/// <summary>What was said in public of a bag.</summary>
/// <param name="PublishedOn">The day it was published.</param>
/// <param name="BagId">The bag it speaks of.</param>
/// <param name="Score">The score published, if one was.</param>
/// <param name="Sentence">The sentence published, if one was.</param>
/// <param name="Disclosure">What was disclosed of how the bag was obtained.</param>
/// <param name="CorrectedOn">The day a correction was published, if one was.</param>
public sealed record PublishedVerdict(
    DateOnly PublishedOn, string BagId, double? Score, string? Sentence, string? Disclosure, DateOnly? CorrectedOn);

/// <summary>A series of blind discrimination trials between two bags.</summary>
/// <param name="Id">The test's identifier.</param>
/// <param name="TestedOn">The day of the test.</param>
/// <param name="Protocol">triangle, duo-trio or paired.</param>
/// <param name="Attribute">The attribute asked, for a paired test.</param>
/// <param name="BagA">The first bag.</param>
/// <param name="BagB">The second bag.</param>
/// <param name="Trials">Trials made; positive.</param>
/// <param name="Correct">Trials answered correctly; from 0 to <paramref name="Trials"/>.</param>
public sealed record BlindTest(
    string Id, DateOnly TestedOn, string Protocol, string? Attribute, string BagA, string BagB, int Trials, int Correct);

/// <summary>A change of equipment or water that touches every bag brewed after it.</summary>
/// <param name="ChangedOn">The first day with the new one.</param>
/// <param name="What">water, grinder, burrs, filter or kettle.</param>
/// <param name="From">What it was before, as written.</param>
/// <param name="To">What it is since, as written.</param>
public sealed record EquipmentChange(DateOnly ChangedOn, string What, string? From, string? To);
