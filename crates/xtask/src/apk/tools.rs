//! Programs that are not ours: where they are, and which package has them.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context as _, bail};

/// Debian's name for what it packs Android's own resources from.
const FRAMEWORK: &str = "/usr/share/android-framework-res/framework-res.apk";

/// The level of Android that Debian's resources describe.
const FRAMEWORK_LEVEL: u32 = 29;

/// What packs, aligns, signs and reads a package.
pub struct PackTools {
    pub aapt: PathBuf,
    pub aapt2: PathBuf,
    pub zipalign: PathBuf,
    pub apksigner: PathBuf,
    /// Android's own resources, to resolve names against.
    pub framework: PathBuf,
    /// The level of Android that these describe.
    pub level: u32,
}

impl PackTools {
    /// Those of the SDK in `ANDROID_HOME`, else Debian's.
    ///
    /// # Errors
    /// All that are missing, each with the package that has it.
    pub fn find() -> anyhow::Result<Self> {
        match std::env::var_os("ANDROID_HOME") {
            Some(home) => Self::of_sdk(Path::new(&home)),
            None => Self::of_debian(),
        }
    }

    fn of_sdk(home: &Path) -> anyhow::Result<Self> {
        let tools = newest(&home.join("build-tools"), |name| Some(version(name)))?.1;
        let (level, platform) = newest(&home.join("platforms"), |name| {
            name.strip_prefix("android-")?.parse::<u32>().ok()
        })?;
        Ok(Self {
            aapt: tools.join("aapt"),
            aapt2: tools.join("aapt2"),
            zipalign: tools.join("zipalign"),
            apksigner: tools.join("apksigner"),
            framework: platform.join("android.jar"),
            level,
        })
    }

    fn of_debian() -> anyhow::Result<Self> {
        let mut missing = Missing::default();
        let tools = Self {
            aapt: missing.program("aapt", "aapt"),
            aapt2: missing.program("aapt2", "aapt"),
            zipalign: missing.program("zipalign", "zipalign"),
            apksigner: missing.program("apksigner", "apksigner"),
            framework: missing.file(FRAMEWORK, "android-framework-res"),
            level: FRAMEWORK_LEVEL,
        };
        missing.program("keytool", "openjdk-17-jre-headless");
        missing.program("readelf", "binutils");
        missing.none()?;
        Ok(tools)
    }

    /// Which resources it packs against.
    pub fn name(&self) -> String {
        format!("Android level {}", self.level)
    }
}

/// What was looked for and not found.
#[derive(Default)]
pub struct Missing(Vec<(String, &'static str)>);

impl Missing {
    /// A program on the path or in `/usr/bin`; where it is not there, its bare name.
    pub fn program(&mut self, name: &str, package: &'static str) -> PathBuf {
        on_path(name).unwrap_or_else(|| {
            self.0.push((name.to_owned(), package));
            PathBuf::from(name)
        })
    }

    /// A file or folder.
    pub fn file(&mut self, path: &str, package: &'static str) -> PathBuf {
        let path = PathBuf::from(path);
        if !path.exists() {
            self.0.push((path.display().to_string(), package));
        }
        path
    }

    /// Something that is there, but not as it is needed.
    pub fn say(&mut self, what: String, package: &'static str) {
        self.0.push((what, package));
    }

    /// # Errors
    /// All that is missing, and the command that brings it.
    pub fn none(self) -> anyhow::Result<()> {
        if self.0.is_empty() {
            return Ok(());
        }
        let what: Vec<String> = self
            .0
            .iter()
            .map(|(what, package)| format!("  {what}, of package {package}"))
            .collect();
        let mut packages: Vec<&str> = self.0.iter().map(|(_, package)| *package).collect();
        packages.sort_unstable();
        packages.dedup();
        bail!(
            "what the tablet's package needs is not all here:\n{}\nDebian has it: apt-get install --no-install-recommends {}",
            what.join("\n"),
            packages.join(" ")
        )
    }
}

/// A program on the path, or in `/usr/bin`.
pub fn on_path(name: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path)
        .chain([PathBuf::from("/usr/bin")])
        .map(|folder| folder.join(name))
        .find(|program| program.is_file())
}

/// The folder in `within` whose name counts most.
fn newest<T: Ord>(
    within: &Path,
    counts: impl Fn(&str) -> Option<T>,
) -> anyhow::Result<(T, PathBuf)> {
    let folders = std::fs::read_dir(within)
        .with_context(|| format!("the SDK has no such folder: {}", within.display()))?;
    folders
        .flatten()
        .filter_map(|folder| Some((counts(folder.file_name().to_str()?)?, folder.path())))
        .max_by(|one, other| one.0.cmp(&other.0))
        .with_context(|| format!("nothing is installed in {}", within.display()))
}

/// The numbers of a version, to be compared.
fn version(text: &str) -> Vec<u32> {
    text.split('.')
        .map_while(|part| part.parse().ok())
        .collect()
}

/// Runs a program to its end and gives what it printed.
///
/// # Errors
/// That it cannot be started or has failed, with what it said.
pub fn output(command: &mut Command) -> anyhow::Result<String> {
    let name = command.get_program().to_string_lossy().into_owned();
    let output = command
        .output()
        .with_context(|| format!("cannot be started: {name}"))?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    if output.status.success() {
        return Ok(text);
    }
    let errors = String::from_utf8_lossy(&output.stderr);
    bail!("{name} failed ({}):\n{text}{errors}", output.status)
}

/// Runs a program that says on its own what it does.
///
/// # Errors
/// That it cannot be started or has failed.
pub fn run(command: &mut Command) -> anyhow::Result<()> {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .status()
        .with_context(|| format!("cannot be started: {name}"))?;
    if !status.success() {
        bail!("{name} failed ({status})");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_is_told_with_its_package() {
        let mut missing = Missing::default();
        missing.program("no-such-program", "such-a-package");
        missing.file("/no/such/file", "another-package");
        let said = missing.none().unwrap_err().to_string();
        assert!(
            said.contains("no-such-program, of package such-a-package"),
            "{said}"
        );
        assert!(said.ends_with("another-package such-a-package"), "{said}");
    }

    #[test]
    fn versions_count_by_their_numbers() {
        assert!(version("35.0.1") > version("9.0.0"));
        assert!(version("35.0.1") > version("35.0.0"));
    }

    #[test]
    fn what_fails_says_why() {
        let failed = output(Command::new("sh").args(["-c", "echo out; echo why >&2; exit 3"]));
        let said = failed.unwrap_err().to_string();
        assert!(
            said.contains("out") && said.contains("why") && said.contains('3'),
            "{said}"
        );
    }
}
