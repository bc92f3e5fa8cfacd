using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace TastingKit.Cli.Scripts;

/// <summary>Turns a cell into statements of a program, leaving its text as it is but for what a program writes otherwise.</summary>
internal sealed class CellWriter
{
    private readonly ScriptCell _cell;
    private readonly ScriptNames _names;
    private readonly List<TextChange> _changes = [];
    private readonly List<MemberDeclarationSyntax> _types = [];

    private CellWriter(ScriptCell cell, ScriptNames names)
    {
        _cell = cell;
        _names = names;
    }

    /// <summary>Writes a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="names">The names of the program.</param>
    /// <param name="notebook">The name by which errors call the notebook.</param>
    /// <exception cref="NotebookFailure">The cell declares what a program's top can't.</exception>
    internal static WrittenCell Write(ScriptCell cell, ScriptNames names, string notebook)
    {
        var writer = new CellWriter(cell, names);
        foreach (var member in cell.Root.Members)
            writer.Add(member, notebook);
        writer.Rename();
        writer.ShowTrailing();
        string[] types = [.. writer._types.Select(type => writer.TypeText(type))];
        // What stands elsewhere in the program is taken out here.
        foreach (var elsewhere in writer._types.Select(type => type.FullSpan).Concat(cell.Root.Usings.Select(directive => directive.Span)))
        {
            writer._changes.RemoveAll(change => Holds(elsewhere, change));
            writer._changes.Add(new TextChange(elsewhere, ""));
        }

        return new WrittenCell([.. cell.Root.Usings.Select(directive => directive.ToString())], Tidy(writer.Apply(new TextSpan(0, cell.Source.Length), writer._changes)), types);
    }

    private static string Tidy(string text) => string.Join('\n', text.Split('\n').Select(line => line.TrimEnd())).Trim('\n');

    private void Add(MemberDeclarationSyntax member, string notebook)
    {
        switch (member)
        {
            case FieldDeclarationSyntax field:
                Strip(field.Modifiers.Where(modifier => !modifier.IsKind(SyntaxKind.ConstKeyword)));
                // A variable of a cell begins as nothing; one of a program must be told so.
                foreach (var variable in field.Declaration.Variables.Where(variable => variable.Initializer is null))
                    _changes.Add(new TextChange(new TextSpan(variable.Identifier.Span.End, 0), " = default"));
                break;
            case MethodDeclarationSyntax method when method.ParameterList.Parameters.FirstOrDefault()?.Modifiers.Any(SyntaxKind.ThisKeyword) == true:
                _types.Add(method);
                break;
            case MethodDeclarationSyntax method:
                Strip(method.Modifiers.Where(modifier => !modifier.IsKind(SyntaxKind.AsyncKeyword) && !modifier.IsKind(SyntaxKind.UnsafeKeyword)));
                break;
            case BaseTypeDeclarationSyntax or DelegateDeclarationSyntax:
                _types.Add(member);
                break;
            case GlobalStatementSyntax:
                break;
            default:
                var line = member.GetLocation().GetLineSpan().StartLinePosition.Line + 1;
                throw ScriptCell.Failure(notebook, _cell.Cell.Number, line, $"a {member.Kind()} can't stand at the top of a program. Expected variables, functions, types and statements.");
        }
    }

    private void Strip(IEnumerable<SyntaxToken> modifiers)
    {
        foreach (var modifier in modifiers)
            _changes.Add(new TextChange(modifier.FullSpan, modifier.LeadingTrivia.ToFullString()));
    }

    /// <summary>Gives every mention of what has another name in the program that name, and keeps the names that were inferred from it.</summary>
    private void Rename()
    {
        foreach (var token in _cell.Root.DescendantTokens().Where(token => token.IsKind(SyntaxKind.IdentifierToken) && token.Parent is not null))
        {
            var node = token.Parent!;
            var symbol = node switch
            {
                SimpleNameSyntax => MeantBy(node),
                ConstructorDeclarationSyntax or DestructorDeclarationSyntax => _cell.Model.GetDeclaredSymbol(node)?.ContainingType,
                _ => _cell.Model.GetDeclaredSymbol(node),
            };
            if (_names.NewNameOf(symbol) is not { } name)
                continue;
            if (node.Parent is ArgumentSyntax { Parent.Parent: InvocationExpressionSyntax { Expression: IdentifierNameSyntax { Identifier.ValueText: "nameof" } } nameOf })
                _changes.Add(new TextChange(nameOf.Span, SymbolDisplay.FormatLiteral(symbol!.Name, quote: true)));
            else
                _changes.Add(new TextChange(token.Span, Inferred(node, symbol!.Name) + name));
        }
    }

    private ISymbol? MeantBy(SyntaxNode node)
    {
        var meant = _cell.Model.GetSymbolInfo(node);
        var symbol = meant.Symbol ?? meant.CandidateSymbols.FirstOrDefault();
        return symbol is IMethodSymbol { MethodKind: MethodKind.Constructor } constructor ? constructor.ContainingType : symbol;
    }

    /// <summary>Anonymous types and tuples take the names of their members from variables.</summary>
    private static string Inferred(SyntaxNode node, string name) => node.Parent switch
    {
        AnonymousObjectMemberDeclaratorSyntax { NameEquals: null } => $"{name} = ",
        ArgumentSyntax { NameColon: null, Parent: TupleExpressionSyntax } => $"{name}: ",
        _ => "",
    };

    private void ShowTrailing()
    {
        if (_cell.Trailing is not { } statement)
            return;
        var expression = statement.Expression;
        var end = new TextSpan(expression.Span.End, 0);
        if (_cell.Model.GetTypeInfo(expression).Type?.SpecialType == SpecialType.System_Void)
        {
            _changes.Add(new TextChange(end, ";"));
            return;
        }

        _changes.Add(new TextChange(new TextSpan(expression.SpanStart, 0), "ScriptPage.Show("));
        _changes.Add(new TextChange(end, ");"));
    }

    private string TypeText(MemberDeclarationSyntax type)
    {
        var text = Tidy(Apply(type.FullSpan, _changes.Where(change => Holds(type.FullSpan, change))));
        return type is MethodDeclarationSyntax
            ? $"static class ExtensionsOfCell{_cell.Cell.Number}At{type.SpanStart}\n{{\n{Indented(Accessible(text, (MethodDeclarationSyntax)type))}\n}}"
            : text;
    }

    private static string Accessible(string text, MethodDeclarationSyntax method) =>
        method.Modifiers.Any(SyntaxKind.PublicKeyword) || method.Modifiers.Any(SyntaxKind.InternalKeyword) ? text : "internal " + text.TrimStart();

    private static string Indented(string text) => string.Join('\n', text.Split('\n').Select(line => line.Length == 0 ? line : "    " + line));

    /// <summary>Whether a change lies in a stretch; what is put in where it ends belongs to what comes next.</summary>
    private static bool Holds(TextSpan span, TextChange change) => span.Contains(change.Span) && change.Span.Start < span.End;

    /// <summary>A stretch of the cell's text with changes made that lie within it.</summary>
    private string Apply(TextSpan span, IEnumerable<TextChange> changes)
    {
        var text = _cell.Source.Substring(span.Start, span.Length);
        // From the end, so that places before it stay right; what is put in before a word goes after the word's own change.
        foreach (var change in changes.OrderByDescending(change => change.Span.Start).ThenByDescending(change => change.Span.Length))
            text = string.Concat(text.AsSpan(0, change.Span.Start - span.Start), change.NewText, text.AsSpan(change.Span.End - span.Start));
        return text;
    }
}

/// <summary>A cell as parts of a program.</summary>
/// <param name="Usings">Its using directives.</param>
/// <param name="Statements">Its statements; empty if it has none.</param>
/// <param name="Types">Its types and extension methods, which stand behind all statements of a program.</param>
internal sealed record WrittenCell(IReadOnlyList<string> Usings, string Statements, IReadOnlyList<string> Types);
