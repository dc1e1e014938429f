//! The tablet's package: guarded, checked, built, linked, packed, aligned, signed and verified, and what was measured of it. With the NDK where
//! there is one, else with the distribution's compilers, which is enough to check everything but never to try it: no step runs on a device.

mod elf;
mod guard;
#[cfg(test)]
mod icon;
mod link;
mod manifest;
mod pack;
mod sign;
mod stubs;
mod tools;
mod verify;

use std::path::{Path, PathBuf};
use std::time::Instant;

use anyhow::{Context as _, bail};

use self::link::Builder;
use self::sign::Key;
use self::tools::PackTools;

/// What `cargo xtask` says of it.
pub const HELP: &str = "\
cargo xtask apk [FILE]          the tablet's package, built, signed and verified (default: target/android/underbrick.apk)
    --key KEYSTORE              signed with the key `underbrick` in it, the password in UNDERBRICK_KEY_PASS, instead of one made on the spot
    --guard                     only: no crate of the tablet's needs a C compiler
    --check                     only: that, and types and lints for Android
    --tools                     only: whether everything is there that the rest needs
    ANDROID_NDK_HOME, ANDROID_HOME   the NDK and the SDK; without them Debian's packages
    UNDERBRICK_ANDROID_TARGET        where it is built (default: target/android)
";

/// How small the package must be.
const MOST_BYTES: u64 = 12_000_000;

/// The workspace's folder.
fn root() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    own.ancestors().nth(2).unwrap_or(own).to_path_buf()
}

/// The folder in which the tablet's is built: a cache of its own, for the compiler is another.
fn target() -> PathBuf {
    std::env::var_os("UNDERBRICK_ANDROID_TARGET")
        .map_or_else(|| root().join("target/android"), PathBuf::from)
}

/// Does what is asked for.
pub fn run(arguments: &[String]) -> anyhow::Result<()> {
    let mut file = None;
    let mut key = None;
    let mut only = None;
    let mut arguments = arguments.iter();
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--guard" | "--check" | "--tools" => only = Some(argument.as_str()),
            "--key" => {
                let keystore = arguments
                    .next()
                    .context("--key needs a keystore behind it")?;
                key = Some(PathBuf::from(keystore));
            }
            other if other.starts_with('-') => bail!("{other} is not understood\n\n{HELP}"),
            other => file = Some(PathBuf::from(other)),
        }
    }
    match only {
        Some("--tools") => {
            let builder = Builder::find()?;
            PackTools::find()?;
            say(&format!(
                "everything is there; compiled by {}",
                builder.name()
            ));
            Ok(())
        }
        Some("--guard") => guarded(),
        Some("--check") => {
            guarded()?;
            checked(&Builder::find()?)
        }
        _ => made(file, key),
    }
}

fn guarded() -> anyhow::Result<()> {
    let n_crates = guard::no_c()?;
    say(&format!(
        "guard: none of the tablet's {n_crates} crates links or compiles C"
    ));
    Ok(())
}

fn checked(builder: &Builder) -> anyhow::Result<()> {
    let started = Instant::now();
    builder.clippy()?;
    say(&format!(
        "types and lints: fine for Android, by {}, in {:.0} s",
        builder.name(),
        started.elapsed().as_secs_f64()
    ));
    Ok(())
}

fn made(file: Option<PathBuf>, key: Option<PathBuf>) -> anyhow::Result<()> {
    let (builder, tools) = (Builder::find()?, PackTools::find()?);
    guarded()?;
    let file = file.unwrap_or_else(|| target().join("underbrick.apk"));
    let work = target().join("apk");
    std::fs::create_dir_all(&work)
        .with_context(|| format!("the folder could not be made: {}", work.display()))?;

    let started = Instant::now();
    let library = builder.library(&work)?;
    let built_in_s = started.elapsed().as_secs_f64();
    elf::check(&library)?;

    let started = Instant::now();
    let packed = pack::pack(&tools, &library, &work)?;
    let key = match key {
        Some(keystore) => Key::given(keystore)?,
        None => Key::made(&work)?,
    };
    sign::sign(&tools, &packed.apk, &key, &file)?;
    verify::verify(&tools, &file, &work)?;
    let packed_in_s = started.elapsed().as_secs_f64();

    say(&format!("built in {built_in_s:.0} s by {}", builder.name()));
    say(&format!(
        "packed, signed and verified in {packed_in_s:.1} s against {}",
        tools.name()
    ));
    for left_out in &packed.left_out {
        say(&format!(
            "left out of the manifest, for that is older: {left_out}"
        ));
    }
    say(&format!("signed with {}", key.name()));
    say(&format!(
        "library {:.2} MB, package {:.2} MB (to reach: under {:.0} MB): {}",
        megabytes(&library)?,
        megabytes(&file)?,
        MOST_BYTES as f64 / 1e6,
        file.display()
    ));
    say("It was verified here and has not run on a device.");
    if !builder.is_for_devices() {
        say(
            "It is linked against names alone, not against Android's own libraries: a check, and nothing to hand out.",
        );
    }
    Ok(())
}

fn megabytes(path: &Path) -> anyhow::Result<f64> {
    let about =
        std::fs::metadata(path).with_context(|| format!("is not there: {}", path.display()))?;
    Ok(about.len() as f64 / 1e6)
}

#[expect(
    clippy::print_stdout,
    reason = "saying what was made is what this command is for"
)]
fn say(line: &str) {
    println!("{line}");
}
