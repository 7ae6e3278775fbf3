# Sourced by the scripts beside it: where the project is, and how it is configured and built.
root="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
cores="$(nproc)"

# OpenMP threads that spin while they wait slow each other down when several programs share the cores; BLAS threads
# would compete with the project's own.
export OMP_WAIT_POLICY=passive OPENBLAS_NUM_THREADS=1

# configure FOLDER [CMAKE OPTION...]: quiet unless it fails.
configure() {
  local folder="$1" words
  shift
  if command -v ccache >/dev/null 2>&1; then
    set -- -D CMAKE_CXX_COMPILER_LAUNCHER=ccache "$@"
  fi
  if ! words="$(cmake -S "$root" -B "$folder" -G Ninja -D CMAKE_EXPORT_COMPILE_COMMANDS=ON "$@" 2>&1)"; then
    printf '%s\n' "$words" >&2
    echo "Configuring failed (cmake's words are above). A package missing? scripts/setup installs them." >&2
    return 1
  fi
}

# build FOLDER [BUILD OPTION...]: one line of progress that rewrites itself on a terminal, every step elsewhere.
build() {
  local folder="$1"
  shift
  cmake --build "$folder" --parallel "$cores" "$@"
}
