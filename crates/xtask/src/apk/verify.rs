//! The finished package, looked at with tools that had no part in making it.

use std::fs;
use std::path::Path;
use std::process::Command;

use anyhow::{Context as _, bail, ensure};

use super::MOST_BYTES;
use super::link::OLDEST_LEVEL;
use super::tools::{PackTools, output};

/// Looks at signature, alignment, permissions, label, icon, machine, library and size.
///
/// # Errors
/// What is not as it must be.
pub fn verify(tools: &PackTools, apk: &Path, work: &Path) -> anyhow::Result<()> {
    let signature = output(&mut signature_of(tools, apk))?;
    ensure!(
        signature.contains("(APK Signature Scheme v3): true"),
        "not signed by scheme v3:\n{signature}"
    );
    refuses_a_flipped_byte(tools, apk, work)?;
    output(Command::new(&tools.zipalign).args(["-c", "16384"]).arg(apk))?;

    let dump = |what: &[&str]| {
        let (subject, files) = what.split_first().context("what to dump")?;
        output(
            Command::new(&tools.aapt)
                .args(["dump", subject])
                .arg(apk)
                .args(files),
        )
    };
    let wrong = wrong_in(
        &dump(&["badging"])?,
        &dump(&["permissions"])?,
        &dump(&["xmltree", "AndroidManifest.xml"])?,
    );
    if !wrong.is_empty() {
        bail!(
            "the package is not as it must be:\n  {}",
            wrong.join("\n  ")
        );
    }
    let n_bytes = fs::metadata(apk)?.len();
    ensure!(
        n_bytes < MOST_BYTES,
        "the package has {n_bytes} bytes, and may have {MOST_BYTES}"
    );
    Ok(())
}

fn signature_of(tools: &PackTools, apk: &Path) -> Command {
    let mut command = Command::new(&tools.apksigner);
    command
        .args([
            "verify",
            "-v",
            "--min-sdk-version",
            &OLDEST_LEVEL.to_string(),
        ])
        .arg(apk);
    command
}

/// A check that cannot fail is none: with one bit of the library turned it must.
fn refuses_a_flipped_byte(tools: &PackTools, apk: &Path, work: &Path) -> anyhow::Result<()> {
    let mut bytes = fs::read(apk)?;
    let middle = bytes.len() / 2;
    *bytes.get_mut(middle).context("the package is empty")? ^= 1;
    let flipped = work.join("flipped.apk");
    fs::write(&flipped, bytes)?;
    let verified = output(&mut signature_of(tools, &flipped));
    fs::remove_file(&flipped)?;
    ensure!(
        verified.is_err(),
        "a package with a flipped byte is verified too"
    );
    Ok(())
}

/// What is wrong with a package, from what `aapt` dumps of it.
fn wrong_in(badging: &str, permissions: &str, manifest: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    let asked: Vec<&str> = permissions
        .lines()
        .chain(badging.lines())
        .filter(|line| line.contains("permission:") || line.contains("permission-sdk"))
        .collect();
    if !asked.is_empty() {
        wrong.push(format!("it asks for permissions: {}", asked.join(", ")));
    }
    let mut must_say = |what: &str, begins: &str, holds: &str| {
        let line = badging.lines().find(|line| line.starts_with(begins));
        if !line.is_some_and(|line| line.contains(holds)) {
            wrong.push(format!("{what}: {}", line.unwrap_or("not said")));
        }
    };
    must_say("its machine", "native-code:", "'arm64-v8a'");
    must_say("its label", "application-label:", "'Underbrick'");
    must_say("its icon", "application:", "icon='res/mipmap");
    must_say(
        "what is started",
        "launchable-activity:",
        "'android.app.NativeActivity'",
    );
    must_say(
        "the oldest Android",
        "sdkVersion:",
        &format!("'{OLDEST_LEVEL}'"),
    );
    must_say("large screens", "supports-screens:", "'xlarge'");
    for (what, holds) in [
        ("the library that is started", "underbrick_android"),
        (
            "that the data is not backed up",
            "android:allowBackup(0x01010280)=(type 0x12)0x0",
        ),
    ] {
        if !manifest.contains(holds) {
            wrong.push(format!("the manifest does not name {what}"));
        }
    }
    wrong
}

#[cfg(test)]
mod tests {
    use super::*;

    const BADGING: &str = "\
package: name='local.underbrick.tablet' versionCode='100' versionName='0.1.0'
sdkVersion:'30'
application-label:'Underbrick'
application: label='Underbrick' icon='res/mipmap-anydpi-v26/icon.xml'
launchable-activity: name='android.app.NativeActivity'  label='' icon=''
supports-screens: 'small' 'normal' 'large' 'xlarge'
native-code: 'arm64-v8a'
";
    const MANIFEST: &str = "A: android:allowBackup(0x01010280)=(type 0x12)0x0\nA: android:value(0x01010024)=\"underbrick_android\"";

    #[track_caller]
    fn check(badging: &str, permissions: &str, words: &str) {
        let wrong = wrong_in(badging, permissions, MANIFEST).join("; ");
        assert_eq!(wrong.is_empty(), words.is_empty(), "{wrong}");
        assert!(wrong.contains(words), "{wrong}");
    }

    #[test]
    fn a_permission_a_wrong_machine_and_a_missing_icon_are_found() {
        let none = "package: local.underbrick.tablet\n";
        check(BADGING, none, "");
        let network = "package: local.underbrick.tablet\nuses-permission: name='android.permission.INTERNET'\n";
        check(BADGING, network, "INTERNET");
        check(
            &BADGING.replace("arm64-v8a", "x86_64"),
            none,
            "its machine: native-code: 'x86_64'",
        );
        check(
            &BADGING.replace("icon='res/mipmap-anydpi-v26/icon.xml'", "icon=''"),
            none,
            "its icon",
        );
        check(&BADGING.replace("'30'", "'21'"), none, "the oldest Android");
        let backed_up = MANIFEST.replace("0x0", "0xffffffff");
        assert!(
            wrong_in(BADGING, none, &backed_up)
                .join("")
                .contains("backed up")
        );
    }
}
