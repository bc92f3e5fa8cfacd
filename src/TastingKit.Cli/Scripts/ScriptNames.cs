using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace TastingKit.Cli.Scripts;

/// <summary>
/// The name in the script of everything that a cell declares for the cells after it. A cell may declare a name again; in a
/// program a name is declared once, so the later one gets a number, and whatever means it follows.
/// </summary>
internal sealed class ScriptNames
{
    private readonly Dictionary<ISymbol, string> _names = new(SymbolEqualityComparer.Default);

    internal ScriptNames(IReadOnlyList<ScriptCell> cells)
    {
        // What a program has of its own, and names of blocks, which may not hide a variable of the program as they may one of a cell.
        var taken = new HashSet<string>(StringComparer.Ordinal) { "args", "ScriptPage", "TastingNotebook" };
        taken.UnionWith(cells.SelectMany(InBlocks));
        foreach (var symbol in cells.SelectMany(Declared))
        {
            var name = symbol.Name;
            for (var n = 2; !taken.Add(name); n++)
                name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{symbol.Name}_{n}");
            _names[symbol] = name;
        }
    }

    /// <summary>The new name of what is meant; <see langword="null"/> if it keeps its own.</summary>
    internal string? NewNameOf(ISymbol? symbol) =>
        symbol is not null && _names.TryGetValue(symbol.OriginalDefinition, out var name) && name != symbol.Name ? name : null;

    /// <summary>What a cell declares at its top, in the order of the text.</summary>
    private static IEnumerable<ISymbol> Declared(ScriptCell cell)
    {
        foreach (var node in cell.Root.DescendantNodes())
        {
            var symbol = node switch
            {
                VariableDeclaratorSyntax or SingleVariableDesignationSyntax => cell.Model.GetDeclaredSymbol(node),
                MethodDeclarationSyntax or BaseTypeDeclarationSyntax or DelegateDeclarationSyntax when node.Parent is CompilationUnitSyntax => cell.Model.GetDeclaredSymbol(node),
                _ => null,
            };
            if (symbol?.ContainingType is { IsScriptClass: true } && symbol is IFieldSymbol or IMethodSymbol or INamedTypeSymbol)
                yield return symbol;
        }
    }

    private static IEnumerable<string> InBlocks(ScriptCell cell) => cell.Root.DescendantNodes(node => !IsFunctionOrType(node)).Select(node => node switch
    {
        VariableDeclaratorSyntax or SingleVariableDesignationSyntax or CatchDeclarationSyntax or ForEachStatementSyntax or QueryClauseSyntax or JoinIntoClauseSyntax or QueryContinuationSyntax
            or LocalFunctionStatementSyntax when cell.Model.GetDeclaredSymbol(node) is ILocalSymbol or IRangeVariableSymbol or IMethodSymbol => cell.Model.GetDeclaredSymbol(node)!.Name,
        _ => "",
    }).Where(name => name.Length > 0);

    /// <summary>Functions and types may use a name of the program for something else.</summary>
    private static bool IsFunctionOrType(SyntaxNode node) =>
        node is AnonymousFunctionExpressionSyntax or LocalFunctionStatementSyntax or MethodDeclarationSyntax or BaseTypeDeclarationSyntax;
}
