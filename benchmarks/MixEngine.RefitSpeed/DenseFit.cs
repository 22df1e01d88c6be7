using System.Diagnostics;
using MathNet.Numerics.LinearAlgebra;
using MixEngine.Core;

namespace MixEngine.RefitSpeed;

/// <summary>The plain way: the same model and the same steps, each step's normal equations built as one dense matrix and factored by MathNet.</summary>
internal sealed class DenseFit(JointFit fit, Sample[] samples)
{
    private readonly int _size = fit.Current.Values.Length;
    private Matrix<double>? _prior;

    /// <summary>Finds the likeliest values.</summary>
    public void Run() => fit.Run(Solve, CancellationToken.None);

    /// <summary>Seconds of it spent on factoring, which grow with the cube of the unknowns; the rest grows with the swatches.</summary>
    public double FactoringSeconds { get; private set; }

    private Estimate Solve(Estimate pull)
    {
        var step = pull.Zero();
        var information = Information();
        var watch = Stopwatch.StartNew();
        information.Cholesky().Solve(Vector<double>.Build.Dense(pull.Values)).CopyTo(Vector<double>.Build.Dense(step.Values));
        FactoringSeconds += watch.Elapsed.TotalSeconds;
        return step;
    }

    // What is believed, and what each sample adds in the rows and columns of its own paints and of what all samples have in common.
    private Matrix<double> Information()
    {
        var matrix = (_prior ??= Prior()).Clone();
        var (x, sum) = (fit.Current.Zero(), fit.Current.Zero());
        foreach (var sample in samples)
        {
            int[] own = [.. sample.Paints.SelectMany(paint => Enumerable.Range(paint * Estimate.PerPaint, Estimate.PerPaint)), .. Enumerable.Range(_size - x.Common.Length, x.Common.Length)];
            double[] u = new double[sample.Readings.Count * Estimate.PerPaint], w = new double[u.Length];
            foreach (var column in own)
            {
                x.Values[column] = 1;
                sample.AddInformation(x, sum, u, w);
                x.Values[column] = 0;
                foreach (var row in own)
                {
                    matrix[row, column] += sum.Values[row];
                    sum.Values[row] = 0;
                }
            }
        }

        return matrix;
    }

    private Matrix<double> Prior()
    {
        var matrix = Matrix<double>.Build.Dense(_size, _size);
        var (x, sum) = (fit.Current.Zero(), fit.Current.Zero());
        for (var column = 0; column < _size; column++)
        {
            x.Values[column] = 1;
            fit.AddBeliefs(x, sum);
            x.Values[column] = 0;
            matrix.SetColumn(column, sum.Values);
            Array.Clear(sum.Values);
        }

        return matrix;
    }
}
