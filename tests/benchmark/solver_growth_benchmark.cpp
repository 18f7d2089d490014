// How the solver grows: square grillages from a thousand to three hundred thousand freedoms, each in a
// process of its own so that the peak memory is its own. Times are processor time. Beside it, where SuiteSparse is installed when
// the benchmark is built, CHOLMOD on the same matrix in the same process run (Y. Chen, T. A. Davis,
// W. W. Hager, S. Rajamanickam, Algorithm 887: CHOLMOD, ACM Transactions on Mathematical Software 35,
// 2008). Prints; asserts nothing. Arguments: the largest number of freedoms (default 300000).
#include "solver/structure.hpp"
#include "underprop/solver/analysis.hpp"

#ifdef UNDERPROP_HAS_CHOLMOD
#include <Eigen/CholmodSupport>
#endif

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

using namespace underprop::solver;

namespace {

using Matrix = Eigen::SparseMatrix<double>;

/// Processor time of this process, all threads, s: not what other programs on the machine take.
double now() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}
double since(double start) { return now() - start; }

/// n joists under n boards, screwed down, every tenth crossing on a one-way pad.
Frame grillage(int n) {
  Frame f;
  const auto node = [&](int j, int b) {
    f.nodes.push_back({"n" + std::to_string(f.nodes.size()), 145.0 * b, 400.0 * j});
    return static_cast<int>(f.nodes.size()) - 1;
  };
  const auto member = [&](int i, int j, double EI, double kGA) {
    Member m;
    m.id = "m" + std::to_string(f.members.size());
    m.i = i;
    m.j = j;
    m.EI = EI;
    m.kGA = kGA;
    f.members.push_back(m);
  };
  const auto at = [n](int j, int b) { return 2 * (j * n + b); };
  for (int j = 0; j < n; ++j) {
    for (int b = 0; b < n; ++b) {
      const int lower = node(j, b);
      const int upper = node(j, b);
      f.links.push_back({"l", upper, lower, rigid, false, 0.0});
      if (b > 0) member(at(j, b - 1), lower, 1.9e11, 5e6);
      if (j > 0) member(at(j - 1, b) + 1, upper, 6e9, 8e5);
      if (b % 10 == 0 && j % 2 == 0) f.supports.push_back({"s", lower, 8e3, 0, 0, true, 0.0});
    }
  }
  return f;
}

double peak_MB() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

struct Times {
  double order = 0.0, factor = 0.0, solve = 0.0;
  [[nodiscard]] double all() const { return order + factor + solve; }
};

template <class Solver>
Times time(Solver& solver, const Matrix& K, const Eigen::VectorXd& f) {
  Times t;
  double start = now();
  solver.analyzePattern(K);
  t.order = since(start);
  start = now();
  solver.factorize(K);
  t.factor = since(start);
  start = now();
  const Eigen::VectorXd u = solver.solve(f);
  t.solve = since(start);
  if (!u.allFinite()) std::printf("not finite\n");
  return t;
}

void whole(int n) {
  const double before = peak_MB();
  Frame f = grillage(n);
  LoadCase load{"load", {}, {}, {}};
  for (int k = 0; k < static_cast<int>(f.nodes.size()); ++k) {
    load.nodal.push_back({k, -1, -50.0, 0, 0});
  }
  double start = now();
  const Analysis a(std::move(f), {load});
  const double built = since(start);
  start = now();
  const Response r = a.solve(std::vector<CaseFactor>{{0, 1.0}});
  const double first = since(start);
  start = now();
  (void)a.solve(std::vector<CaseFactor>{{0, 1.35}});
  const double again = since(start);
  const double freedoms = 3.0 * n * n;
  const double MB = peak_MB() - before;
  std::printf(
      "%9.0f freedoms: analysis %8.3f s, first solve %7.4f s, again %7.4f s; peak %7.1f MB, %5.0f "
      "bytes per freedom; worst proof %.0e%s\n",
      freedoms, built, first, again, MB, MB * 1048576.0 / freedoms,
      std::max({r.proof.residual, r.proof.balance, r.proof.complementarity}),
      r.mechanism ? " (loose)" : "");
}

void matrices(int n) {
  const Structure s(grillage(n));
  const Matrix K = s.matrix();
  const Eigen::VectorXd f = Eigen::VectorXd::Ones(K.rows());
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower, FillReducing> ours;
  const Times t = time(ours, K, f);
  const Matrix& L = ours.matrixL().nestedExpression();
  double operations = 0.0;  // a multiplication and an addition for every pair in a column
  for (Eigen::Index c = 0; c < L.cols(); ++c) {
    const auto below = static_cast<double>(L.outerIndexPtr()[c + 1] - L.outerIndexPtr()[c]);
    operations += below * below;
  }
  std::printf(
      "%9d freedoms: LDL' (ours)  order %7.3f, factor %7.3f, solve %7.4f s, %6.1f M entries, "
      "%.2f G operations in the factor, %.2f G a second\n",
      static_cast<int>(K.rows()), t.order, t.factor, t.solve,
      static_cast<double>(L.nonZeros()) / 1e6, operations / 1e9, operations / 1e9 / t.factor);
#ifdef UNDERPROP_HAS_CHOLMOD
  const auto beside = [&](const char* what, auto& solver) {
    const Times c = time(solver, K, f);
    std::printf(
        "                    %s order %7.3f, factor %7.3f, solve %7.4f s, %6.1f M entries; ours "
        "over "
        "it: all %.2f, factor %.2f, solve %.2f\n",
        what, c.order, c.factor, c.solve, solver.cholmod().lnz / 1e6, t.all() / c.all(),
        t.factor / c.factor, t.solve / c.solve);
  };
  {
    Eigen::CholmodSimplicialLDLT<Matrix, Eigen::Lower> simplicial;
    beside("CHOLMOD LDL'", simplicial);
  }
  {
    Eigen::CholmodSupernodalLLT<Matrix, Eigen::Lower> supernodal;
    beside("CHOLMOD supernodal", supernodal);
  }
#else
  std::printf("                    CHOLMOD was not installed when this was built\n");
#endif
}

template <class Work>
void apart(Work&& work) {
  std::fflush(stdout);
  const pid_t child = fork();
  if (child == 0) {
    work();
    std::fflush(stdout);
    _exit(EXIT_SUCCESS);
  }
  int status = 0;
  if (child > 0) waitpid(child, &status, 0);
  if (child < 0 || status != 0) std::printf("a size failed\n");
}

}  // namespace

int main(int argc, char** argv) {
  const double most = argc > 1 ? std::atof(argv[1]) : 3e5;
  std::vector<int> sizes;
  for (const double freedoms : {1e3, 3e3, 1e4, 3e4, 1e5, 3e5}) {
    if (freedoms <= most) {
      sizes.push_back(static_cast<int>(std::lround(std::sqrt(freedoms / 3.0))));
    }
  }
  for (const int n : sizes) apart([n] { whole(n); });
  for (const int n : sizes) apart([n] { matrices(n); });
  std::printf(
      "What limits: above 1e5 freedoms nearly all time goes into the factor. Its operations grow "
      "as "
      "n^1.5, as nested dissection's must, and it works entry by entry, so that beyond the size of "
      "the processor's cache memory sets the pace; memory itself grows as n log n.\n");
  return EXIT_SUCCESS;
}
