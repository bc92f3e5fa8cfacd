namespace TastingKit;

/// <summary>Why a cup was brewed.</summary>
public enum Purpose
{
    /// <summary>A cup that counts for the coffee's verdict. The default where a log does not say.</summary>
    Verdict,

    /// <summary>A cup brewed to find the grind or recipe; left out of models unless asked for.</summary>
    DialIn,

    /// <summary>A cup of a coffee set aside to watch the taster's scale, for example a frozen dose.</summary>
    Control,

    /// <summary>A cupping bowl; kept apart from brewers.</summary>
    Cupping,
}
