using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace TastingKit.Cli.Parameters;

/// <summary>What a cell declares for the cells after it, read from its syntax alone: nothing is compiled or run.</summary>
internal static class CellVariables
{
    private static readonly CSharpParseOptions Script = new(kind: SourceCodeKind.Script);

    /// <summary>
    /// The variables that the cell declares, by name; <see langword="null"/> in place of a type that can't be written on a
    /// command line. Constants are left out, since they can't be set.
    /// </summary>
    internal static IReadOnlyDictionary<string, ParameterType?> DeclaredIn(string source)
    {
        var variables = new Dictionary<string, ParameterType?>(StringComparer.Ordinal);
        foreach (var field in Parse(source).Members.OfType<FieldDeclarationSyntax>().Where(field => !field.Modifiers.Any(SyntaxKind.ConstKeyword)))
        {
            foreach (var variable in field.Declaration.Variables)
                variables[variable.Identifier.ValueText] = TypeOf(field.Declaration.Type, variable.Initializer?.Value);
        }

        return variables;
    }

    /// <summary>Every name that the cell mentions.</summary>
    internal static IEnumerable<string> NamesIn(string source) =>
        Parse(source).DescendantNodes().OfType<IdentifierNameSyntax>().Select(name => name.Identifier.ValueText);

    private static CompilationUnitSyntax Parse(string source) => CSharpSyntaxTree.ParseText(source, Script).GetCompilationUnitRoot();

    private static ParameterType? TypeOf(TypeSyntax declared, ExpressionSyntax? value) => declared switch
    {
        NullableTypeSyntax nullable => TypeOf(nullable.ElementType, value),
        { IsVar: true } => TypeOf(value),
        _ => ParameterType.Called(declared.ToString()),
    };

    private static ParameterType? TypeOf(ExpressionSyntax? value) => value switch
    {
        LiteralExpressionSyntax { Token.Value: { } literal } => ParameterType.Called(literal.GetType().Name),
        PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.UnaryMinusExpression or (int)SyntaxKind.UnaryPlusExpression } signed => TypeOf(signed.Operand),
        ObjectCreationExpressionSyntax creation => ParameterType.Called(creation.Type.ToString()),
        InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.ValueText: "Parse" or "ParseExact" } parse } => ParameterType.Called(parse.Expression.ToString()),
        _ => null,
    };
}
