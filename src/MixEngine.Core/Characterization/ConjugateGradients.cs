namespace MixEngine.Core;

/// <summary>
/// Preconditioned conjugate gradients [HestenesStiefel1952] for several right-hand sides at a time: a matrix that is gathered from thousands of small parts is
/// then read once for all of them.
/// </summary>
internal static class ConjugateGradients
{
    private const int MostRounds = 1000;

    /// <summary>Solves A·x = b for every b.</summary>
    /// <param name="right">The right-hand sides b.</param>
    /// <param name="multiply">Sets its second arguments, all zero, to A times its first.</param>
    /// <param name="precondition">Sets its second argument to nearly A⁻¹ times its first.</param>
    /// <param name="tolerance">Ends where the residual, as the preconditioner measures it, has fallen to this share.</param>
    /// <param name="cancel">Stops it.</param>
    public static Estimate[] Solve(
        Estimate[] right, Action<Estimate[], Estimate[]> multiply, Action<Estimate, Estimate> precondition, double tolerance, CancellationToken cancel)
    {
        var columns = Array.ConvertAll(right, b => new Column(b, precondition));
        for (var round = 0; round < MostRounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            var open = Array.FindAll(columns, column => column.Left > tolerance * tolerance);
            if (open.Length == 0)
            {
                break;
            }

            multiply(Array.ConvertAll(open, column => column.Direction), Array.ConvertAll(open, column => column.Cleared()));
            foreach (var column in open)
            {
                column.Step(precondition);
            }
        }

        return Array.ConvertAll(columns, column => column.Solution);
    }

    // One system on its way: x, residual r, preconditioned residual z, direction p, and A·p.
    private sealed class Column
    {
        private readonly Estimate _r;
        private readonly Estimate _z;
        private readonly Estimate _ap;
        private readonly double _start;
        private double _rz;

        public Column(Estimate right, Action<Estimate, Estimate> precondition)
        {
            (Solution, _r, _z, _ap) = (right.Zero(), right.Copy(), right.Zero(), right.Zero());
            precondition(_r, _z);
            Direction = _z.Copy();
            _start = _rz = LowerTriangle.Dot(_r.Values, _z.Values);
        }

        public Estimate Solution { get; }

        public Estimate Direction { get; }

        // Squared, against the start.
        public double Left => _start > 0 ? _rz / _start : 0;

        public Estimate Cleared()
        {
            Array.Clear(_ap.Values);
            return _ap;
        }

        public void Step(Action<Estimate, Estimate> precondition)
        {
            var alpha = _rz / LowerTriangle.Dot(Direction.Values, _ap.Values);
            LowerTriangle.AddScaled(alpha, Direction.Values, Solution.Values);
            LowerTriangle.AddScaled(-alpha, _ap.Values, _r.Values);
            precondition(_r, _z);
            var next = LowerTriangle.Dot(_r.Values, _z.Values);
            var beta = next / _rz;
            _rz = next;
            for (var i = 0; i < Direction.Values.Length; i++)
            {
                Direction.Values[i] = _z.Values[i] + beta * Direction.Values[i];
            }
        }
    }
}
