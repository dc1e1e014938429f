//! Who compiles and links for the tablet: the NDK with rustup's compiler, or the distribution's compiler against names alone.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Context as _;

use super::tools::{Missing, on_path, output, run};
use super::{root, stubs, target};

/// The tablet's kind of machine.
const TARGET: &str = "aarch64-linux-android";

/// The oldest Android that is supported: from it on libc itself has what walks the stack after a panic.
pub const OLDEST_LEVEL: u32 = 30;

/// How the tablet's library is compiled.
const PROFILE: &str = "tablet";

/// The Debian packages of a Rust that carries the source of its standard library.
const DEBIAN_RUST: &str = "/usr/lib/rustlib/src/rust/library/std/Cargo.toml";

/// Who compiles and links.
pub enum Builder {
    /// The NDK's linker and libraries, rustup's compiler and standard library.
    Ndk {
        /// Its linker.
        linker: PathBuf,
    },
    /// Debian's rustc with its standard library from source, its clang and lld, and libraries that hold names only.
    Distribution {
        /// Its clang.
        clang: PathBuf,
        /// Its lld.
        lld: PathBuf,
        /// The version of its rustc.
        rustc: String,
    },
}

impl Builder {
    /// The NDK in `ANDROID_NDK_HOME`, else the distribution.
    ///
    /// # Errors
    /// What is missing, with the package that has it.
    pub fn find() -> anyhow::Result<Self> {
        match std::env::var_os("ANDROID_NDK_HOME") {
            Some(home) => Self::of_ndk(Path::new(&home)),
            None => Self::of_distribution(),
        }
    }

    fn of_ndk(home: &Path) -> anyhow::Result<Self> {
        let hosts = home.join("toolchains/llvm/prebuilt");
        let name = format!("{TARGET}{OLDEST_LEVEL}-clang");
        let linker = std::fs::read_dir(&hosts)
            .with_context(|| {
                format!(
                    "ANDROID_NDK_HOME is no NDK: {} is not there",
                    hosts.display()
                )
            })?
            .flatten()
            .map(|host| host.path().join("bin").join(&name))
            .find(|linker| linker.exists())
            .with_context(|| format!("the NDK has no {name}: {}", hosts.display()))?;
        let mut installed = Command::new("rustc");
        installed.args(["--print", "target-libdir", "--target", TARGET]);
        let library = PathBuf::from(output(&mut installed)?.trim());
        anyhow::ensure!(
            library.is_dir(),
            "rustup has no standard library for the tablet: rustup target add {TARGET}"
        );
        Ok(Self::Ndk { linker })
    }

    fn of_distribution() -> anyhow::Result<Self> {
        let mut missing = Missing::default();
        missing.file("/usr/bin/cargo", "cargo-web");
        missing.file("/usr/bin/cargo-clippy", "rust-web-clippy");
        missing.file(DEBIAN_RUST, "rust-web-src");
        let rustc = output(Command::new("/usr/bin/rustc").arg("--version")).unwrap_or_default();
        let least = env!("CARGO_PKG_RUST_VERSION");
        if numbers(&rustc) < numbers(least) {
            let found = if rustc.is_empty() {
                "nothing"
            } else {
                rustc.trim()
            };
            missing.say(
                format!("/usr/bin/rustc of at least {least} (found: {found})"),
                "rustc-web",
            );
        }
        let (clang, lld) = newest_pair().unwrap_or_else(|| {
            missing.say(
                "clang with lld of the same number".to_owned(),
                "clang-22 lld-22",
            );
            Default::default()
        });
        missing.none()?;
        Ok(Self::Distribution {
            clang,
            lld,
            rustc: rustc.trim().to_owned(),
        })
    }

    /// Its name, with versions where they are not the project's own.
    pub fn name(&self) -> String {
        match self {
            Self::Ndk { linker } => format!("the NDK ({})", linker.display()),
            Self::Distribution { rustc, clang, .. } => {
                format!("the distribution's {rustc}, linked by {}", clang.display())
            }
        }
    }

    /// Whether what it links is meant for a device.
    pub const fn is_for_devices(&self) -> bool {
        matches!(self, Self::Ndk { .. })
    }

    /// Types and lints of the tablet's crate and of ours below it.
    ///
    /// # Errors
    /// What the compiler or a lint says.
    pub fn clippy(&self) -> anyhow::Result<()> {
        // Where a target has no thread-local storage of its own, as this one, that lint also finds what is `const` already.
        let lints = [
            "--",
            "-D",
            "warnings",
            "-A",
            "clippy::missing_const_for_thread_local",
        ];
        run(self.cargo("clippy").args(lints))
    }

    /// Builds and links the library and gives its place. `work` is a folder for what the linking needs.
    ///
    /// # Errors
    /// What compiler or linker says.
    pub fn library(&self, work: &Path) -> anyhow::Result<PathBuf> {
        let linker = match self {
            Self::Ndk { linker } => linker.clone(),
            Self::Distribution { clang, lld, .. } => stubs::linker(clang, lld, work)?,
        };
        let mut cargo = self.cargo("build");
        cargo.env("CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER", linker);
        // Pages of 16 KiB, and no name that Android has not. What ends at a panic needs no tables to unwind by, an eighth of the library;
        // functions that came out the same are kept once.
        cargo.env(
            "CARGO_TARGET_AARCH64_LINUX_ANDROID_RUSTFLAGS",
            "-Clink-arg=-Wl,-z,max-page-size=16384 -Clink-arg=-Wl,--no-undefined -Clink-arg=-Wl,--icf=all \
             -Cpanic=abort -Cforce-unwind-tables=no",
        );
        run(&mut cargo)?;
        Ok(target()
            .join(TARGET)
            .join(PROFILE)
            .join("libunderbrick_android.so"))
    }

    fn cargo(&self, subcommand: &str) -> Command {
        let mut cargo = match self {
            Self::Ndk { .. } => Command::new("cargo"),
            Self::Distribution { .. } => {
                let mut cargo = Command::new("/usr/bin/cargo");
                let path = std::env::var("PATH").unwrap_or_default();
                cargo
                    .env("PATH", format!("/usr/bin:{path}"))
                    .env("RUSTC", "/usr/bin/rustc")
                    .env("RUSTDOC", "/usr/bin/rustdoc")
                    .env("RUSTC_BOOTSTRAP", "1");
                cargo
            }
        };
        // Set by the cargo that runs this program, for another compiler.
        for name in [
            "CARGO",
            "RUSTUP_TOOLCHAIN",
            "RUSTFLAGS",
            "CARGO_ENCODED_RUSTFLAGS",
        ] {
            cargo.env_remove(name);
        }
        cargo
            .arg(subcommand)
            .args([
                "--lib",
                "--package",
                "underbrick-android",
                "--profile",
                PROFILE,
                "--target",
                TARGET,
            ])
            .env("CARGO_TARGET_DIR", target())
            .current_dir(root());
        if matches!(self, Self::Distribution { .. }) {
            cargo.args(["-Z", "build-std=std,panic_abort"]);
        }
        cargo
    }
}

/// The newest clang that has an lld of its own number beside it.
fn newest_pair() -> Option<(PathBuf, PathBuf)> {
    (14..40).rev().find_map(|number| {
        let clang = on_path(&format!("clang-{number}"))?;
        Some((clang, on_path(&format!("ld.lld-{number}"))?))
    })
}

/// The first two numbers of the first version in a text.
fn numbers(text: &str) -> Option<(u32, u32)> {
    let version = text
        .split_whitespace()
        .find(|word| word.starts_with(|first: char| first.is_ascii_digit()))?;
    let mut parts = version.split('.').map(str::parse::<u32>);
    Some((parts.next()?.ok()?, parts.next()?.ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_compiler_that_is_too_old_is_told_by_its_number() {
        assert_eq!(
            numbers("rustc 1.96.0 (ac68faa20 2026-05-25)"),
            Some((1, 96))
        );
        assert!(numbers("rustc 1.63.0") < numbers(env!("CARGO_PKG_RUST_VERSION")));
        assert!(numbers("") < numbers("1.0.0"));
    }
}
