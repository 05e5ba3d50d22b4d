namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Nonlinear least squares by damped Gauss-Newton steps: Levenberg, Quarterly of Applied Mathematics 2 (1944) 164; Marquardt, SIAM Journal 11
/// (1963) 431; each parameter scaled by its longest column so far as in Moré, Lecture Notes in Mathematics 630 (1978) 105; damping after
/// Nielsen, IMM-REP-1999-05. Each step is solved by reflections. The last steps go undamped, because the sum of
/// squares tells only half of the digits (docs/science/weighted-least-squares.md). Held against the 27 nonlinear data sets of NIST.
/// </summary>
internal static class LevenbergMarquardt
{
    private const int MostLastSteps = 60;
    private const double FirstDamping = 1e-2;
    private const double MostDamping = 1e20;
    private const double LeastGain = 1e-3;

    public static LeastSquaresSolution Minimise<T>(T problem, ReadOnlySpan<double> start, int mostSteps)
        where T : struct, ILeastSquaresProblem
    {
        var walk = new Walk<T>(problem, start);
        walk.Descend(mostSteps);
        walk.Finish();
        return walk.Solution();
    }

    private sealed class Walk<T>
        where T : struct, ILeastSquaresProblem
    {
        private readonly int _rows;
        private readonly double[] _scale;
        private readonly double[] _step;
        private readonly double[] _diagonal;
        private readonly double[] _matrix;
        private readonly double[] _right;
        private readonly T _problem;
        private Place _here;
        private Place _trial;
        private Place? _measured;
        private int _steps;

        public Walk(T problem, ReadOnlySpan<double> start)
        {
            _problem = problem;
            _rows = problem.Points + problem.Parameters;
            (_scale, _step, _diagonal) = (new double[start.Length], new double[start.Length], new double[start.Length]);
            (_matrix, _right) = (new double[_rows * start.Length], new double[_rows]);
            (_here, _trial) = (new Place(problem.Points, start.Length), new Place(problem.Points, start.Length));
            start.CopyTo(_here.Parameters);
            _here.Evaluate(problem);
        }

        /// <summary>Damped steps, none longer than the parameters themselves, until what a step promises is lost in the rounding of the sum.</summary>
        public void Descend(int mostSteps)
        {
            double damping = FirstDamping, growth = 2;
            while (_steps++ < mostSteps && damping < MostDamping && double.IsFinite(_here.Sum))
            {
                var promised = Step(damping);
                while (Length(_step) > Length(_here.Parameters) && damping < MostDamping)
                {
                    damping *= 2;
                    promised = Step(damping);
                }

                if (!(promised > 1e-14 * _here.Sum))
                {
                    return;
                }

                _trial.Move(_here, _step, _problem);
                var gain = (_here.Sum - _trial.Sum) / promised;
                if (gain > LeastGain)
                {
                    var bend = (2 * gain) - 1;
                    damping *= Math.Max(1.0 / 3, 1 - (bend * bend * bend));
                    (growth, _here, _trial) = (2, _trial, _here);
                }
                else
                {
                    damping *= growth;
                    growth *= 2;
                }
            }
        }

        /// <summary>Undamped steps as long as they become shorter and the sum stays.</summary>
        public void Finish()
        {
            var before = double.PositiveInfinity;
            for (var i = 0; i < MostLastSteps && double.IsFinite(_here.Sum); i++)
            {
                Step(0);
                var length = Length(_step);
                _trial.Move(_here, _step, _problem);
                if (!(length < 0.9 * before) || !(_trial.Sum <= _here.Sum * (1 + 1e-9)))
                {
                    return;
                }

                (before, _here, _trial) = (length, _trial, _here);
                _steps++;
            }
        }

        public LeastSquaresSolution Solution()
        {
            Load(0);
            OrthogonalTriangle.Reduce(_matrix, _rows, _diagonal, _right);
            return new LeastSquaresSolution
            {
                Parameters = _here.Parameters,
                Covariance = OrthogonalTriangle.InverseOfSquare(_matrix, _rows, _diagonal),
                SumOfSquares = _here.Sum,
                Steps = _steps,
                Settled = IsSettled(),
            };
        }

        /// <summary>What is left along the derivatives, Qᵀr, is small beside the residuals.</summary>
        private bool IsSettled()
        {
            var along = OrthogonalTriangle.Norm(_right.AsSpan(0, _diagonal.Length));
            return double.IsFinite(_here.Sum) && (along <= 1e-5 * Math.Sqrt(_here.Sum) || along <= 1e-10 * _here.Largest);
        }

        /// <summary>Each parameter's longest column so far; a place is measured once, however often it is stepped from.</summary>
        private void Measure()
        {
            if (_measured == _here)
            {
                return;
            }

            for (var j = 0; j < _step.Length; j++)
            {
                _scale[j] = Math.Max(_scale[j], OrthogonalTriangle.Norm(_here.Derivatives.AsSpan(j * _problem.Points, _problem.Points)));
            }

            _measured = _here;
        }

        /// <summary>Sets the step at a damping and gives the decrease that it promises.</summary>
        private double Step(double damping)
        {
            Load(damping);
            OrthogonalTriangle.Reduce(_matrix, _rows, _diagonal, _right);
            OrthogonalTriangle.Solve(_matrix, _rows, _diagonal, _right, _step);
            var promised = 0.0;
            for (var j = 0; j < _step.Length; j++)
            {
                var weighed = _scale[j] * _step[j];
                promised += (_right[j] * _right[j]) + (damping * weighed * weighed);
            }

            return promised;
        }

        private void Load(double damping)
        {
            Measure();
            Array.Clear(_matrix);
            _here.Residuals.CopyTo(_right, 0);
            Array.Clear(_right, _problem.Points, _step.Length);
            var root = Math.Sqrt(damping);
            for (var j = 0; j < _step.Length; j++)
            {
                var column = _here.Derivatives.AsSpan(j * _problem.Points, _problem.Points);
                column.CopyTo(_matrix.AsSpan(j * _rows));
                _matrix[(j * _rows) + _problem.Points + j] = root * (_scale[j] > 0 ? _scale[j] : 1);
            }
        }

        private double Length(double[] vector)
        {
            var sum = 0.0;
            for (var j = 0; j < vector.Length; j++)
            {
                sum += _scale[j] * vector[j] * _scale[j] * vector[j];
            }

            return Math.Sqrt(sum);
        }
    }

    /// <summary>Parameters with what the problem says there.</summary>
    private sealed class Place(int points, int parameters)
    {
        public double[] Parameters { get; } = new double[parameters];

        public double[] Residuals { get; } = new double[points];

        public double[] Derivatives { get; } = new double[points * parameters];

        public double Sum { get; private set; }

        /// <summary>The largest derivative, as a measure of what residuals mean.</summary>
        public double Largest => OrthogonalTriangle.Norm(Derivatives);

        public void Move<T>(Place from, double[] step, T problem)
            where T : struct, ILeastSquaresProblem
        {
            for (var j = 0; j < step.Length; j++)
            {
                Parameters[j] = from.Parameters[j] + step[j];
            }

            Evaluate(problem);
        }

        public void Evaluate<T>(T problem)
            where T : struct, ILeastSquaresProblem
        {
            problem.Evaluate(Parameters, Residuals, Derivatives);
            Sum = 0;
            foreach (var residual in Residuals)
            {
                Sum += residual * residual;
            }

            foreach (var derivative in Derivatives)
            {
                Sum = double.IsFinite(derivative) ? Sum : double.PositiveInfinity;
            }

            Sum = double.IsNaN(Sum) ? double.PositiveInfinity : Sum;
        }
    }
}
