namespace TastingKit;

/// <summary>What a reader must know before repeating what seeing the label does.</summary>
internal static class LabelCautions
{
    private const double Lopsided = 0.2;
    private const int FewestRoasters = 5;

    public static IReadOnlyList<Caution> Of(LabelModel model)
    {
        var pairs = model.Pairs;
        var cautions = new List<Caution>();
        var known = model.SeenFirst + model.SeenLater;
        if (known > 0 && Math.Min(model.SeenFirst, model.SeenLater) <= Lopsided * known)
        {
            cautions.Add(new Caution("order-not-mixed",
                $"The cup whose label was seen came first in {model.SeenFirst} of {NumberText.Count(known, "pair")}: {(model.HasOrder ? "what the order does is hardly told from the label" : "what the order does can\u2019t be told from the label, and is counted as its effect")}. Let lot decide the order."));
        }

        var unknown = pairs.Count(pair => pair.PlacesLater is null);
        if (unknown > 0)
        {
            cautions.Add(new Caution("order-not-logged",
                $"Of {NumberText.Count(unknown, "pair")} the log does not say which cup came first; they count as tasted side by side. Write the place in the sitting into position."));
        }

        string[] roasters = [.. pairs.Select(pair => pair.Bag.Coffee.Roaster?.ToLowerInvariant()).OfType<string>().Distinct()];
        if (roasters.Length < FewestRoasters)
        {
            cautions.Add(new Caution("few-roasters",
                $"The pairs are of {(roasters.Length == 0 ? "roasters that the log does not name" : NumberText.Count(roasters.Length, "roaster"))}: what their labels do need not be what others do, and the interval speaks of these {(model.ClusteredBy == "coffee" ? "roasters\u2019 coffees" : "coffees")} alone."));
        }

        var alone = pairs.Count(pair => pair.IsAlone);
        if (alone > 0.5 * pairs.Count)
        {
            cautions.Add(new Caution("code-hides-little",
                $"At the sittings of {alone} of {NumberText.Count(pairs.Count, "pair")} no other bag was tasted, so that the taster could know what was in the coded cup: a label effect would show as smaller than it is."));
        }

        return cautions;
    }
}
