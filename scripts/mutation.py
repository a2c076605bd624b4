#!/usr/bin/python3
"""mutation.py [--share PERCENT] [--only PREFIX] [--jobs N] [--constants] [--seed N]

Changes the code of src/check, src/chip, src/layout and src/forms, one small change at a time
(operators, conditions, constants), and reports the share of changes that the tests notice. The
changes of a file are compiled together and woken one by one by the environment; those in constant
expressions need a compilation each and are tried with --constants only. Works on a copy of the tree
in build/mutation; survivors are listed in build/mutation/survivors.txt. Needs python3-clang-14.
"""
import argparse
import collections
import concurrent.futures
import json
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent / "mutation"))
import mutants  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parent.parent
TREE = ROOT / "build" / "mutation" / "tree"
BUILD = ROOT / "build" / "mutation" / "build"
FOLDERS = ["check", "chip", "layout", "forms"]
# The floor's own tests are asked first, then the others. Those that take long are left out, and so are
# the floors further up: whatever they notice, a mutant that they alone notice counts as surviving.
OTHERS = ["check", "chip", "layout", "forms", "make", "judge"]
LEFT_OUT = ["~[long]~[.]"]
PROGRAMS = [f"tests_{name}" for name in OTHERS]


def run(*command, **options):
    return subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **options)


def copy_tree():
    """A fresh copy; files that did not change keep their time, so that the build has less to do."""
    listed = run("git", "-C", str(ROOT), "ls-files").stdout.split("\n")
    TREE.mkdir(parents=True, exist_ok=True)
    for name in filter(None, listed):
        source, target = ROOT / name, TREE / name
        if not source.is_file():
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists() or target.read_bytes() != source.read_bytes():
            shutil.copyfile(source, target)
            shutil.copymode(source, target)


def configure():
    options = ["-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_CXX_FLAGS=-w", "-DCMAKE_CXX_FLAGS_RELEASE=-O1",
               "-DRTCMEND_STATIC=OFF"]
    if shutil.which("ccache"):
        options.append("-DCMAKE_CXX_COMPILER_LAUNCHER=ccache")
    done = run("cmake", "-G", "Ninja", "-S", str(TREE), "-B", str(BUILD), *options)
    if done.returncode:
        sys.exit(done.stdout)


def build(*targets):
    return run("cmake", "--build", str(BUILD), "--target", *targets, "--", "-k", "0")


def clang_arguments():
    """Per file, what clang needs to read it as the compiler does."""
    result = {}
    for entry in json.loads((BUILD / "compile_commands.json").read_text()):
        words = entry["command"].split()
        result[entry["file"]] = [w for w in words if w.startswith(("-I", "-D", "-std"))] + [
            x for i, w in enumerate(words) if w == "-isystem" for x in ("-isystem", words[i + 1])]
    return result


def write(path, source, chosen):
    # The lines keep their numbers, so that errors can be tied to changes.
    path.write_text(f'#include "{ROOT}/scripts/mutation/switch.h"\n#line 1\n' +
                    mutants.rewritten(source, chosen))


def compile_all(files):
    """Compiles the changed files; changes that do not compile by number move to the constant ones."""
    for path, (source, chosen) in files.items():
        write(path, source, [m for m in chosen if not m.constant])
    for attempt in range(12):
        done = build(*PROGRAMS)
        if done.returncode == 0:
            return
        lines = collections.defaultdict(set)
        for name, line in re.findall(r"^(\S+?):(\d+):\d+: (?:error|note|  required)", done.stdout, re.M):
            lines[(BUILD / name).resolve()].add(int(line))
        moved = 0
        for path, (source, chosen) in files.items():
            if f"{path.name}.o" not in done.stdout:
                continue
            for mutant in chosen:
                last = mutant.line + source[mutant.start:mutant.end].count("\n")
                near = any(mutant.line - attempt <= line <= last + attempt for line in lines[path])
                if near and not mutant.constant:
                    mutant.constant = True
                    moved += 1
            write(path, source, [m for m in chosen if not m.constant])
        if not moved:
            sys.exit(done.stdout[-6000:])
        print(f"  {moved} changes cannot be woken by number", flush=True)
    sys.exit("mutation: the changed files do not compile")


def noticed(floor, number, seconds):
    """The test program that notices a mutant, or None."""
    environment = dict(os.environ, RTCMEND_MUTANT=str(number))
    for name in [floor] + [other for other in OTHERS if other != floor]:
        try:
            done = subprocess.run([BUILD / "tests" / f"tests_{name}", *LEFT_OUT, "--abort"], env=environment,
                                  stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                  timeout=seconds[name], cwd=BUILD / "tests")
        except subprocess.TimeoutExpired:
            return name
        if done.returncode:
            return name
    return None


def usual_seconds():
    """How long each program may take: ten times what it takes with no mutant awake, which must pass."""
    import time
    result = {}
    for name in OTHERS:
        begin = time.monotonic()
        done = run(str(BUILD / "tests" / f"tests_{name}"), *LEFT_OUT, cwd=BUILD / "tests")
        if done.returncode:
            sys.exit(f"mutation: tests_{name} fails with no mutant awake:\n{done.stdout[-3000:]}")
        result[name] = 10 * (time.monotonic() - begin) + 5
    print("  the tests take", {k: round((v - 5) / 10, 1) for k, v in result.items()}, flush=True)
    return result


def describe(mutant, source):
    line = source[:mutant.start].count("\n")
    text = source.split("\n")[line].strip()
    change = f"not ({mutant.old})" if mutant.kind == "negated" else f"{mutant.old} -> {mutant.new}"
    where = pathlib.Path(mutant.file).relative_to(TREE)
    return f"{where}:{line + 1}: {' '.join(change.split())}    | {text}"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--share", type=float, default=100, help="try this share of the changes")
    parser.add_argument("--only", default="", help="files whose path begins so, such as src/chip")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--constants", action="store_true", help="try those in constant expressions too")
    options = parser.parse_args()

    copy_tree()
    configure()
    arguments = clang_arguments()
    files, number = {}, 0
    for folder in FOLDERS:
        for path in sorted((TREE / "src" / folder).glob("*.cpp")):
            if not str(path.relative_to(TREE)).startswith(options.only):
                continue
            source, chosen = mutants.find(str(path), arguments[str(path)])
            for mutant in chosen:
                number += 1
                mutant.number = number
            files[path] = (source, chosen)
    print(f"{number} changes in {len(files)} files", flush=True)
    compile_all(files)
    seconds = usual_seconds()

    dice = random.Random(options.seed)
    count = collections.Counter()
    survivors = []

    def note(path, mutant, by):
        folder = path.parent.name
        count[folder, "tried"] += 1
        count[folder, "noticed"] += by is not None
        if by is None:
            survivors.append(describe(mutant, files[path][0]))
            print("survives:", survivors[-1], flush=True)

    work = [(path, m) for path, (_, chosen) in files.items() for m in chosen
            if not m.constant and dice.random() * 100 < options.share]
    with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
        for (path, mutant), by in zip(work, pool.map(
                lambda item: noticed(item[0].parent.name, item[1].number, seconds), work)):
            note(path, mutant, by)

    constants = [(path, m) for path, (_, chosen) in files.items() for m in chosen if m.constant]
    print(f"{len(constants)} changes in constant expressions", flush=True)
    if options.constants:
        for path, (source, _) in files.items():
            path.write_text(source)
        for path, mutant in constants:
            if dice.random() * 100 >= options.share:
                continue
            path.write_text(mutants.rewritten(files[path][0], [mutant], False))
            compiled = build(*PROGRAMS).returncode == 0
            if compiled:
                note(path, mutant, noticed(path.parent.name, -1, seconds))
            path.write_text(files[path][0])

    (ROOT / "build" / "mutation" / "survivors.txt").write_text("\n".join(survivors) + "\n")
    print("folder     changes  noticed   share")
    for folder in FOLDERS:
        tried, seen = count[folder, "tried"], count[folder, "noticed"]
        if tried:
            print(f"src/{folder:<7}{tried:>7}{seen:>9}{100 * seen / tried:>7.1f} %")
    tried = sum(v for (_, what), v in count.items() if what == "tried")
    seen = sum(v for (_, what), v in count.items() if what == "noticed")
    print(f"together   {tried:>7}{seen:>9}{100 * seen / max(tried, 1):>7.1f} %")
    return 0 if seen >= 0.9 * tried else 1


if __name__ == "__main__":
    sys.exit(main())
