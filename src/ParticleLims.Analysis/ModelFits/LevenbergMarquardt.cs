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
        private readonly int _parameters;
        private readonly double[] _numbers;
        private readonly T _problem;
        private Place _here;
        private Place _trial;
        private Place? _measured;
        private Place? _undamped;
        private int _steps;

        public Walk(T problem, ReadOnlySpan<double> start)
        {
            (_problem, _rows, _parameters) = (problem, problem.Points + problem.Parameters, problem.Parameters);
            _numbers = new double[(3 * _parameters) + (_rows * (_parameters + 1))];
            (_here, _trial) = (new Place(problem.Points, _parameters), new Place(problem.Points, _parameters));
            start.CopyTo(_here.Parameters);
            _here.Evaluate(problem);
        }

        private Span<double> Scale => _numbers.AsSpan(0, _parameters);

        private Span<double> Direction => _numbers.AsSpan(_parameters, _parameters);

        private Span<double> Diagonal => _numbers.AsSpan(2 * _parameters, _parameters);

        private Span<double> Right => _numbers.AsSpan(3 * _parameters, _rows);

        private Span<double> Matrix => _numbers.AsSpan((3 * _parameters) + _rows);

        /// <summary>Damped steps, none longer than the parameters themselves, until what a step promises is lost in the rounding of the sum.</summary>
        public void Descend(int mostSteps)
        {
            double damping = FirstDamping, growth = 2;
            while (_steps++ < mostSteps && damping < MostDamping && double.IsFinite(_here.Sum))
            {
                var promised = Step(damping);
                while (Length(Direction) > Length(_here.Parameters) && damping < MostDamping)
                {
                    damping *= 2;
                    promised = Step(damping);
                }

                if (!(promised > 1e-14 * _here.Sum))
                {
                    return;
                }

                _trial.Move(_here, Direction, _problem);
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
                var length = Length(Direction);
                _trial.Move(_here, Direction, _problem);
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
            Reduce(0);
            return new LeastSquaresSolution
            {
                Parameters = [.. _here.Parameters],
                Covariance = OrthogonalTriangle.InverseOfSquare(Matrix, _rows, Diagonal),
                SumOfSquares = _here.Sum,
                Steps = _steps,
                Settled = IsSettled(),
            };
        }

        /// <summary>What is left along the derivatives, Qᵀr, is small beside the residuals.</summary>
        private bool IsSettled()
        {
            var along = OrthogonalTriangle.Norm(Right[.._parameters]);
            return double.IsFinite(_here.Sum) && (along <= 1e-5 * Math.Sqrt(_here.Sum) || along <= 1e-10 * _here.Largest);
        }

        /// <summary>Each parameter's longest column so far; a place is measured once, however often it is stepped from.</summary>
        private void Measure()
        {
            if (_measured == _here)
            {
                return;
            }

            for (var j = 0; j < _parameters; j++)
            {
                Scale[j] = Math.Max(Scale[j], OrthogonalTriangle.Norm(_here.Derivatives.Slice(j * _problem.Points, _problem.Points)));
            }

            _measured = _here;
        }

        /// <summary>Sets the step at a damping and gives the decrease that it promises.</summary>
        private double Step(double damping)
        {
            Reduce(damping);
            OrthogonalTriangle.Solve(Matrix, _rows, Diagonal, Right, Direction);
            var promised = 0.0;
            for (var j = 0; j < _parameters; j++)
            {
                var weighed = Scale[j] * Direction[j];
                promised += (Right[j] * Right[j]) + (damping * weighed * weighed);
            }

            return promised;
        }

        /// <summary>Makes the triangle of the derivatives here with a damping; the undamped one of a place may stand already.</summary>
        private void Reduce(double damping)
        {
            if (damping == 0 && _undamped == _here)
            {
                return;
            }

            Load(damping);
            OrthogonalTriangle.Reduce(Matrix, _rows, Diagonal, Right);
            _undamped = damping == 0 ? _here : null;
        }

        private void Load(double damping)
        {
            Measure();
            var matrix = Matrix;
            var points = _problem.Points;
            matrix.Clear();
            _here.Residuals.CopyTo(Right);
            Right[points..].Clear();
            var root = Math.Sqrt(damping);
            for (var j = 0; j < _parameters; j++)
            {
                _here.Derivatives.Slice(j * points, points).CopyTo(matrix[(j * _rows)..]);
                matrix[(j * _rows) + points + j] = root * (Scale[j] > 0 ? Scale[j] : 1);
            }
        }

        private double Length(ReadOnlySpan<double> vector)
        {
            var sum = 0.0;
            var scale = Scale;
            for (var j = 0; j < vector.Length; j++)
            {
                sum += scale[j] * vector[j] * scale[j] * vector[j];
            }

            return Math.Sqrt(sum);
        }
    }

    /// <summary>Parameters with what the problem says there.</summary>
    private sealed class Place(int points, int parameters)
    {
        private readonly double[] _numbers = new double[parameters + points + (points * parameters)];

        public Span<double> Parameters => _numbers.AsSpan(0, parameters);

        public Span<double> Residuals => _numbers.AsSpan(parameters, points);

        public Span<double> Derivatives => _numbers.AsSpan(parameters + points);

        public double Sum { get; private set; }

        /// <summary>The largest derivative, as a measure of what residuals mean.</summary>
        public double Largest => OrthogonalTriangle.Norm(Derivatives);

        public void Move<T>(Place from, ReadOnlySpan<double> step, in T problem)
            where T : struct, ILeastSquaresProblem
        {
            for (var j = 0; j < step.Length; j++)
            {
                Parameters[j] = from.Parameters[j] + step[j];
            }

            Evaluate(problem);
        }

        public void Evaluate<T>(in T problem)
            where T : struct, ILeastSquaresProblem
        {
            problem.Evaluate(Parameters, Residuals, Derivatives);
            var (sum, rest) = (0.0, 0.0);
            foreach (var residual in Residuals)
            {
                sum += residual * residual;
            }

            // A number less itself is zero, an infinite one or none is not.
            foreach (var derivative in Derivatives)
            {
                rest += derivative - derivative;
            }

            Sum = rest != 0 || double.IsNaN(sum) ? double.PositiveInfinity : sum;
        }
    }
}
