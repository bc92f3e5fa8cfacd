namespace TastingKit;

/// <summary>The sentences of <see cref="LabelEffect"/>.</summary>
internal static class LabelWords
{
    public static IReadOnlyList<string> Of(LabelEffect effect)
    {
        var told = effect.Premiums.Where(premium => premium.IsTold).ToArray();
        var untold = effect.Premiums.Where(premium => !premium.IsTold && premium.Answer is PartAnswer.Estimated).ToArray();
        var refused = effect.Premiums.Where(premium => premium.Answer is PartAnswer.Refused).ToArray();
        return
        [
            effect.Average.Match(one => Say(effect, one), no => $"{no.Reason} {no.WhatToLog}"),
            .. effect.Order.Match<string[]>(
                one => [$"That is at equal places in the sitting: each place later changed it by {NumberText.Difference(one.Estimate)} points (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)}) between cups of a pair."],
                no => [$"{no.Reason} {no.WhatToLog}"]),
            .. told.Select(premium => $"The effect goes with {premium.What}: {Figures(premium)}."),
            .. Untold([.. untold.Where(premium => !IsOfACountry(premium))], untold.Count(IsOfACountry)),
            .. refused.Length == 0 ? Array.Empty<string>() : [$"Not answered: {string.Join("; ", refused.Select(premium => $"{premium.What} ({MethodWords.Lowered(((PartAnswer.Refused)premium.Answer).Reason)})"))}"],
            .. effect.OutsidePairs.Match<string[]>(
                one => [$"Outside pairs, cups whose label was seen scored {NumberText.Difference(one.Estimate)} points against coded ones at like brews (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)}; {one.From}). Which cups were coded there was chosen and not drawn by lot, so this is weaker, and is no part of the figures above."],
                _ => []),
        ];
    }

    private static bool IsOfACountry(LabelPremium premium) => premium.What.EndsWith(LabelPremium.OfACountry, StringComparison.Ordinal);

    private static string[] Untold(LabelPremium[] premiums, int countries)
    {
        string[] all = [.. premiums.Select(Short), .. countries == 0 ? Array.Empty<string>() : [$"{(countries == 1 ? "the country" : $"any of {countries} countries")}"]];
        return all.Length == 0 ? [] : [$"That it goes with any of these can\u2019t be told: {string.Join("; ", all)}."];
    }

    private static string Short(LabelPremium premium) => premium.Answer.Match(
        one => $"{premium.What} ({NumberText.DifferenceInterval(one.Low, one.High)} points per {premium.Per})", _ => premium.What);

    private static string Say(LabelEffect effect, PartAnswer.Estimated one)
    {
        var figures = $"{NumberText.Difference(one.Estimate)} points (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)}; {one.From})";
        return one.Low > 0 || one.High < 0
            ? $"Seeing the label {(one.Estimate > 0 ? "raised" : "lowered")} {MethodWords.Named(effect.Attribute)} of the same brew: {figures}."
            : $"No effect of seeing the label on {MethodWords.Named(effect.Attribute)} can be told: {figures}.";
    }

    private static string Figures(LabelPremium premium) => premium.Answer.Match(
        one => $"{NumberText.Difference(one.Estimate)} points per {premium.Per} (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)}; {one.From})", _ => "");
}
