namespace TastingKit;

/// <summary>What a reader must know before repeating what a log says of drift.</summary>
internal static class DriftCautions
{
    public static IReadOnlyList<Caution> Of(
        TastingLog log, IReadOnlyList<Tasting> cups, IReadOnlyList<LeftOut> leftOut, DriftModel model, Scale scale, TastingAttribute attribute)
    {
        var cautions = new List<Caution>();
        var changes = ScoreCautions.ChangesAmong(log, cups);
        if (changes.Count > 0)
        {
            cautions.Add(new Caution("equipment-changed",
                $"Water or equipment changed ({ScoreCautions.Said(changes)}). Each change is allowed for as one step for all cups after it; a change that came in slowly, or is not in the log, would pass for drift."));
        }

        var setAside = leftOut.Where(left => left.Reason == ScoredCups.NotFrozen).Sum(left => left.Cups);
        if (setAside > 0)
        {
            cautions.Add(new Caution("set-aside",
                $"{NumberText.Count(setAside, "control dose was", "control doses were")} set aside unfrozen: coffee that is set aside ages, so these can't tell drift and are left out."));
        }

        var frozen = cups.Where(DriftModel.IsFrozen).ToArray();
        var sighted = frozen.Count(c => !c.BlindTo.HasFlag(BlindTo.Coffee));
        if (sighted > 0)
        {
            cautions.Add(new Caution("doses-known",
                $"{sighted} of {NumberText.Count(frozen.Length, "frozen dose")} {(sighted == 1 ? "was" : "were")} tasted by a taster who could know the coffee: who remembers the last score may give it again, which hides drift."));
        }

        cautions.AddRange(new[]
        {
            model.SessionsLeftOut, ScoreCautions.Ceiling([.. cups.Select(c => c.ValueOf(attribute)!.Value)], scale), ScoreCautions.HangTogether(model.Fit, cups, TastingLog.DefaultSeed),
        }.OfType<Caution>());
        return cautions;
    }
}
