using Google.OrTools.Sat;
using MixEngine.Core;

namespace MixEngine.Planning;

/// <summary>
/// A palette problem as a mixed-integer program: take[p] says whether a bottle is taken, use[d, o] which option serves a demand.
/// Each demand uses exactly one option, and only of bottles that are taken: Σ over its options with paint p of use[d, o] ≤ take[p].
/// </summary>
internal sealed class PaletteModel
{
    /// <summary>Differences in the model are whole numbers of this size, CIEDE2000: far below what an eye sees.</summary>
    public const double Grain = 0.001;

    private readonly PaletteProblem _problem;
    private readonly CpModel _model = new();
    private readonly BoolVar[] _take;
    private readonly BoolVar[][] _use;

    /// <summary>States the constraints.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="allowed">The largest difference that each demand may be left with.</param>
    public PaletteModel(PaletteProblem problem, Func<int, double> allowed)
    {
        _problem = problem;
        _take = [.. problem.Paints.Select((_, p) => _model.NewBoolVar($"take{p}"))];
        _use = new BoolVar[problem.Demands.Count][];
        for (var d = 0; d < _use.Length; d++)
        {
            var options = problem.Options[d].Where(option => option.DeltaE00 <= allowed(d) + 1e-12).ToArray();
            _use[d] = [.. options.Select((_, o) => _model.NewBoolVar($"use{d}_{o}"))];
            _model.AddExactlyOne(_use[d]);
            foreach (var paint in options.SelectMany(option => option.Places).Distinct())
            {
                var with = _use[d].Where((_, o) => options[o].Places.Contains(paint));
                _model.Add(LinearExpr.Sum(with) <= _take[paint]);
            }
        }
    }

    /// <summary>Number of bottles first; among as many, those that are not on the table yet.</summary>
    public LinearExpr BottleCost()
    {
        long CostOf(int paint) => BottleWeight + (_problem.OnTable[paint] ? 0 : 1);
        return LinearExpr.WeightedSum(_take, _take.Select((_, p) => CostOf(p)));
    }

    /// <summary>What a bottle costs in <see cref="BottleCost"/>: more than all bottles that are not on the table together.</summary>
    public long BottleWeight => _problem.Paints.Count + 1;

    /// <summary>Number of options in the model.</summary>
    public int Options => _use.Sum(of => of.Length);

    public LinearExpr Bottles() => LinearExpr.Sum(_take);

    /// <summary>The largest avoidable difference left, in grains.</summary>
    public LinearExpr Worst()
    {
        var most = _use.Select((_, d) => Avoidable(d, _use[d].Length - 1)).Max();
        var worst = _model.NewIntVar(0, most, "worst");
        for (var d = 0; d < _use.Length; d++)
        {
            _model.Add(LinearExpr.WeightedSum(_use[d], _use[d].Select((_, o) => Avoidable(d, o))) <= worst);
        }

        return worst;
    }

    /// <summary>The sum of all differences left, in grains.</summary>
    public LinearExpr Sum() => LinearExpr.WeightedSum(
        _use.SelectMany(of => of),
        _use.SelectMany((of, d) => of.Select((_, o) => Grains(_problem.Options[d][o].DeltaE00))));

    public void AtMost(LinearExpr expression, long value) => _model.Add(expression <= value);

    public void Minimize(LinearExpr expression) => _model.Minimize(expression);

    /// <summary>Starts the search from a palette.</summary>
    public void Hint(IReadOnlyCollection<int> bottles)
    {
        _model.ClearHints();
        for (var p = 0; p < _take.Length; p++)
        {
            _model.AddHint(_take[p], bottles.Contains(p) ? 1 : 0);
        }
    }

    /// <summary>Searches with one thread for a fixed amount of work, so that the answer is the same on every machine.</summary>
    /// <param name="work">Deterministic time, about a second each.</param>
    /// <param name="relaxed">Whether linear relaxations may help to bound the objective: they prove more, and take memory that grows with the model.</param>
    /// <param name="cancellation">Ends the search.</param>
    public (CpSolverStatus Status, int[] Bottles, long Objective, long Bound) Solve(double work, bool relaxed, CancellationToken cancellation)
    {
        var solver = new CpSolver
        {
            StringParameters = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"num_workers:1,random_seed:1,max_deterministic_time:{work:0.###},linearization_level:{(relaxed ? 1 : 0)}"),
        };
        using var registration = cancellation.Register(solver.StopSearch);
        var status = solver.Solve(_model);
        cancellation.ThrowIfCancellationRequested();
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (status, [.. Enumerable.Range(0, _take.Length).Where(p => solver.BooleanValue(_take[p]))], (long)Math.Round(solver.ObjectiveValue), (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : (status, [], 0, status == CpSolverStatus.Unknown ? (long)Math.Ceiling(Math.Max(0, solver.BestObjectiveBound) - 1e-6) : 0);
    }

    private long Avoidable(int demand, int option) => Grains(_problem.Avoidable(demand, _problem.Options[demand][option].DeltaE00));

    public static long Grains(double difference) => (long)Math.Ceiling(difference / Grain - 1e-9);
}
