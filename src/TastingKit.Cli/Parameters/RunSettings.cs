using TastingKit.Pages;

namespace TastingKit.Cli.Parameters;

/// <summary>
/// What a run was asked to set, as <c>name=value</c>. The values go into a cell of their own behind the one tagged
/// <c>parameters</c>, or behind the first code cell where none is tagged, and so stand on the page.
/// </summary>
internal sealed class RunSettings
{
    private readonly IReadOnlyList<(string Name, string Text)> _settings;

    /// <exception cref="CommandException">A setting is not of the form <c>name=value</c>, or a name is set twice.</exception>
    internal RunSettings(IReadOnlyList<string> written)
    {
        var settings = new List<(string Name, string Text)>();
        foreach (var setting in written)
        {
            var equals = setting.IndexOf('=', StringComparison.Ordinal);
            var name = equals < 0 ? "" : setting[..equals].Trim();
            if (name.Length == 0)
                throw new CommandException($"--set {setting}: there is no name and value in it. Expected --set name=value.");
            if (settings.Exists(earlier => earlier.Name == name))
                throw new CommandException($"--set {setting}: {name} is set twice. Expected each name once.");
            settings.Add((name, setting[(equals + 1)..]));
        }

        _settings = settings;
    }

    /// <summary>Puts the values into the notebooks that know their names.</summary>
    /// <param name="notebooks">The notebooks of a run.</param>
    /// <param name="messages">Gets a line for each value set.</param>
    /// <exception cref="CommandException">None of them knows a name, or a value is not of its variable's type.</exception>
    internal IReadOnlyList<NotebookDocument> ApplyTo(IReadOnlyList<NotebookDocument> notebooks, RunMessages messages)
    {
        if (_settings.Count == 0)
            return notebooks;
        var unknown = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        var result = notebooks.Select(notebook => ApplyTo(notebook, messages, unknown)).ToArray();
        if (_settings.FirstOrDefault(setting => unknown.GetValueOrDefault(setting.Name)?.Count == notebooks.Count) is { Name: not null } lost)
            throw new CommandException($"--set {lost.Name}={lost.Text}: {string.Join(" ", unknown[lost.Name])}");
        return result;
    }

    private NotebookDocument ApplyTo(NotebookDocument notebook, RunMessages messages, Dictionary<string, List<string>> unknown)
    {
        var code = notebook.Cells.OfType<NotebookCell.Code>().ToArray();
        var tagged = code.Where(cell => cell.IsParameters).ToArray();
        var settable = (tagged.Length > 0 ? tagged : code.Take(1)).SelectMany(cell => CellVariables.DeclaredIn(cell.Source))
            .GroupBy(variable => variable.Key, StringComparer.Ordinal).ToDictionary(group => group.Key, group => group.Last().Value, StringComparer.Ordinal);
        var lines = new List<string>();
        foreach (var (name, text) in _settings)
        {
            string line;
            if (settable.TryGetValue(name, out var type))
            {
                line = $"{name} = {Literal(name, text, type, notebook.Name)};";
            }
            else if (tagged.Length == 0 && Mentions(code, name))
            {
                CheckThatNoneDeclares(code, name, text, notebook.Name);
                line = $"var {name} = {ParameterType.Of(text).ToLiteral(text)};";
            }
            else
            {
                if (!unknown.TryGetValue(name, out var reasons))
                    unknown[name] = reasons = [];
                reasons.Add($"{notebook.Name} has no parameter '{name}'. {Known(settable, tagged.Length > 0)}");
                continue;
            }

            messages.Set(notebook.Name, name, text);
            lines.Add(line);
        }

        return lines.Count == 0 ? notebook : notebook.WithValues(Place(code, tagged), string.Join('\n', lines));
    }

    /// <summary>Behind the parameters, and behind what an earlier run set, which would undo this one.</summary>
    private static int Place(NotebookCell.Code[] code, NotebookCell.Code[] tagged)
    {
        var after = tagged.Length > 0 ? tagged[^1] : code[0];
        return Math.Max(after.Index, code.Where(cell => cell.IsValues).Select(cell => cell.Index).DefaultIfEmpty().Max());
    }

    private static string Literal(string name, string text, ParameterType? type, string notebook)
    {
        if (type is null)
            throw new CommandException($"--set {name}={text}: the type of {name} in {notebook} can't be written on a command line. Expected a variable of type int, long, double, decimal, bool, DateOnly or string.");
        return type.ToLiteral(text) ??
            throw new CommandException($"--set {name}={text}: '{text}' is not {type.Words}, which {name} is in {notebook} ({type.Name}). Expected for example --set {name}={type.Example}.");
    }

    private static bool Mentions(NotebookCell.Code[] code, string name) => code.Any(cell => CellVariables.NamesIn(cell.Source).Contains(name, StringComparer.Ordinal));

    private static void CheckThatNoneDeclares(NotebookCell.Code[] code, string name, string text, string notebook)
    {
        if (code.FirstOrDefault(cell => CellVariables.DeclaredIn(cell.Source).ContainsKey(name)) is { } declaring)
        {
            throw new CommandException(
                $"--set {name}={text}: cell {declaring.Number} of {notebook} declares {name} itself, which would undo the setting. Expected that cell to have the tag '{NotebookCell.Code.ParametersTag}'.");
        }
    }

    private static string Known(Dictionary<string, ParameterType?> settable, bool isTagged)
    {
        var names = settable.Where(variable => variable.Value is not null).Select(variable => $"{variable.Key} ({variable.Value!.Name})").ToArray();
        if (names.Length > 0)
            return $"Expected one of {string.Join(", ", names)}.";
        return isTagged
            ? $"Its cell tagged '{NotebookCell.Code.ParametersTag}' declares none that can be set."
            : $"It has no cell tagged '{NotebookCell.Code.ParametersTag}', and no cell uses that name.";
    }
}
