using System.Numerics;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>
/// Rounds a table of numbers of 0 or more so that it still adds up along rows and columns. The grand total is rounded half up; totals and cells are the
/// floor or the ceiling of what they are. One row or column goes by largest remainder. In a table, whatever is not whole lies on a circle of others, along
/// which parts move, the larger remainder up, until one of them is whole (that there is such a rounding: Causey, Cox and Ernst, "Applications of
/// transportation theory to statistical problems", Journal of the American Statistical Association 80, 1985; from memory).
/// </summary>
internal sealed class TableRounding
{
    private readonly int _rows;
    private readonly int _columns;
    private readonly List<Edge> _edges = [];
    private readonly LinkedList<Edge>[] _open;

    private TableRounding(Fraction[,] cells)
    {
        (_rows, _columns) = (cells.GetLength(0), cells.GetLength(1));
        Cells = new BigInteger[_rows, _columns];
        RowTotals = new BigInteger[_rows];
        ColumnTotals = new BigInteger[_columns];
        _open = [.. Enumerable.Range(0, _rows + _columns + 2).Select(_ => new LinkedList<Edge>())];
    }

    /// <summary>The cells.</summary>
    public BigInteger[,] Cells { get; }

    /// <summary>The total of each row.</summary>
    public BigInteger[] RowTotals { get; }

    /// <summary>The total of each column.</summary>
    public BigInteger[] ColumnTotals { get; }

    /// <summary>The total of all.</summary>
    public BigInteger Total { get; private set; }

    /// <summary>Rounds a table.</summary>
    /// <param name="cells">Numbers of 0 or more.</param>
    public static TableRounding Of(Fraction[,] cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var rounding = new TableRounding(cells);
        if (rounding._rows <= 1 || rounding._columns <= 1) rounding.RoundRow(cells);
        else rounding.Round(cells);
        return rounding;
    }

    /// <summary>Rounds a row of numbers so that it adds up to its rounded total: the largest remainders go up, of two alike the first.</summary>
    public static BigInteger[] Shares(IReadOnlyList<Fraction> parts) => Shares(parts, parts.Aggregate(Fraction.Zero, (sum, part) => sum + part).Rounded);

    /// <summary>Rounds a row of numbers so that it adds up to a total, which is less than one for each part away from theirs.</summary>
    public static BigInteger[] Shares(IReadOnlyList<Fraction> parts, BigInteger total)
    {
        BigInteger[] whole = [.. parts.Select(part => part.Floor)];
        var left = total - whole.Aggregate(BigInteger.Zero, (sum, part) => sum + part);
        foreach (var index in Enumerable.Range(0, whole.Length).OrderByDescending(part => parts[part] - new Fraction(whole[part], 1)).Take((int)left))
            whole[index] += 1;
        return whole;
    }

    private void RoundRow(Fraction[,] cells)
    {
        var shares = Shares([.. cells.Cast<Fraction>()]);
        for (var i = 0; i < shares.Length; i++)
        {
            var (row, column) = (i / _columns, i % _columns);
            Cells[row, column] = shares[i];
            RowTotals[row] += shares[i];
            ColumnTotals[column] += shares[i];
            Total += shares[i];
        }
    }

    private int Source => _rows + _columns;

    private int Sink => _rows + _columns + 1;

    private void Round(Fraction[,] cells)
    {
        var common = CommonDenominator(cells);
        var (rows, columns, all) = (new BigInteger[_rows], new BigInteger[_columns], BigInteger.Zero);
        for (var row = 0; row < _rows; row++)
        {
            for (var column = 0; column < _columns; column++)
            {
                var part = cells[row, column].Numerator * (common / cells[row, column].Denominator);
                (rows[row], columns[column], all) = (rows[row] + part, columns[column] + part, all + part);
                var (i, j) = (row, column);
                Add(part, common, row, _rows + column, whole => Cells[i, j] = whole);
            }
        }

        for (var row = 0; row < _rows; row++) AddRow(rows[row], common, row);
        for (var column = 0; column < _columns; column++) AddColumn(columns[column], common, column);
        var total = Add(all, common, Sink, Source, whole => Total = whole);
        if (total.IsOpen) Settle(total, 2 * total.Part >= common);
        for (var node = 0; node < _open.Length; node++)
        {
            while (_open[node].Count > 0) Walk(node, first: null, isUp: false);
        }

        foreach (var edge in _edges) edge.Finish();
    }

    private void AddRow(BigInteger sum, BigInteger common, int row) => Add(sum, common, Source, row, whole => RowTotals[row] = whole);

    private void AddColumn(BigInteger sum, BigInteger common, int column) =>
        Add(sum, common, _rows + column, Sink, whole => ColumnTotals[column] = whole);

    private Edge Add(BigInteger value, BigInteger common, int from, int to, Action<BigInteger> finish)
    {
        var whole = BigInteger.DivRem(value, common, out var part);
        var edge = new Edge(from, to, whole, part, common, finish);
        _edges.Add(edge);
        if (edge.IsOpen) edge.Link(_open);
        return edge;
    }

    /// <summary>Makes the grand total whole before all else.</summary>
    private void Settle(Edge total, bool isUp)
    {
        while (total.IsOpen) Walk(Sink, total, isUp);
    }

    /// <summary>Follows what is not whole from a node until it comes back to where it was, and moves parts along that circle.</summary>
    private void Walk(int node, Edge? first, bool isUp)
    {
        var path = new List<(Edge Edge, bool IsForward)>();
        var places = new Dictionary<int, int> { [node] = 0 };
        var edge = first ?? _open[node].First!.Value;
        while (true)
        {
            var isForward = edge.From == node;
            path.Add((edge, isForward));
            node = isForward ? edge.To : edge.From;
            if (places.TryGetValue(node, out var start))
            {
                Push(path[start..], start == 0 ? first : null, isUp);
                return;
            }

            places[node] = path.Count;
            edge = Next(node, edge);
        }
    }

    /// <summary>Whatever adds up has no single part that is not whole.</summary>
    private Edge Next(int node, Edge edge)
    {
        var open = _open[node];
        return open.First!.Value != edge ? open.First.Value : open.First.Next!.Value;
    }

    private static void Push(List<(Edge Edge, bool IsForward)> circle, Edge? first, bool isUp)
    {
        var gain = BigInteger.Zero;
        foreach (var (edge, isForward) in circle) gain += isForward ? edge.Remainder : -edge.Remainder;
        var isAlong = first is not null ? isUp : gain.Sign != 0 ? gain.Sign > 0 : circle[0].IsForward;
        var most = circle.Select(step => step.IsForward == isAlong ? step.Edge.Common - step.Edge.Part : step.Edge.Part).Min();
        foreach (var (edge, isForward) in circle)
        {
            edge.Part += isForward == isAlong ? most : -most;
            if (!edge.IsOpen) edge.Unlink();
        }
    }

    private static BigInteger CommonDenominator(Fraction[,] cells)
    {
        var common = BigInteger.One;
        foreach (var cell in cells) common *= cell.Denominator / BigInteger.GreatestCommonDivisor(common, cell.Denominator);
        return common;
    }

    /// <summary>A number of the table, which flows from its row to its column; totals flow on, so that nothing is lost anywhere.</summary>
    private sealed class Edge(int from, int to, BigInteger whole, BigInteger part, BigInteger common, Action<BigInteger> finish)
    {
        private LinkedListNode<Edge>? _atFrom;
        private LinkedListNode<Edge>? _atTo;

        public int From { get; } = from;

        public int To { get; } = to;

        public BigInteger Common { get; } = common;

        /// <summary>What it is above its floor as given, of <see cref="Common"/>.</summary>
        public BigInteger Remainder { get; } = part;

        /// <summary>The same as it is by now.</summary>
        public BigInteger Part { get; set; } = part;

        public bool IsOpen => !Part.IsZero && Part != Common;

        public void Link(LinkedList<Edge>[] open) => (_atFrom, _atTo) = (open[From].AddLast(this), open[To].AddLast(this));

        public void Unlink()
        {
            _atFrom!.List!.Remove(_atFrom);
            _atTo!.List!.Remove(_atTo);
        }

        public void Finish() => finish(whole + (Part.IsZero ? 0 : 1));
    }
}
