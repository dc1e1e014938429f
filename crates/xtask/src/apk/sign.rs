//! The key, and the signature.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context as _, ensure};

use super::link::OLDEST_LEVEL;
use super::tools::{PackTools, output};

/// Where the password of a key that was given stands.
const PASSWORD: &str = "UNDERBRICK_KEY_PASS";

/// The key's name in its store.
const ALIAS: &str = "underbrick";

/// A key to sign with.
pub struct Key {
    keystore: PathBuf,
    /// In the form that the signer takes.
    password: String,
    is_thrown_away: bool,
}

impl Key {
    /// One that is kept elsewhere.
    ///
    /// # Errors
    /// That there is no such store, or no password for it.
    pub fn given(keystore: PathBuf) -> anyhow::Result<Self> {
        ensure!(
            keystore.is_file(),
            "there is no such keystore: {}",
            keystore.display()
        );
        std::env::var_os(PASSWORD)
            .with_context(|| format!("the password of the keystore belongs into {PASSWORD}"))?;
        Ok(Self {
            keystore,
            password: format!("env:{PASSWORD}"),
            is_thrown_away: false,
        })
    }

    /// One that is made on the spot and good for nothing but trying.
    ///
    /// # Errors
    /// What `keytool` says.
    pub fn made(work: &Path) -> anyhow::Result<Self> {
        let keystore = work.join("thrown-away.keystore");
        if keystore.exists() {
            std::fs::remove_file(&keystore)?;
        }
        output(
            Command::new("keytool")
                .args([
                    "-genkeypair",
                    "-storetype",
                    "PKCS12",
                    "-storepass",
                    "thrown-away",
                    "-alias",
                    ALIAS,
                ])
                .args([
                    "-dname",
                    "CN=Underbrick made on the spot",
                    "-keyalg",
                    "RSA",
                    "-keysize",
                    "2048",
                    "-validity",
                    "10000",
                ])
                .arg("-keystore")
                .arg(&keystore),
        )?;
        Ok(Self {
            keystore,
            password: "pass:thrown-away".to_owned(),
            is_thrown_away: true,
        })
    }

    /// What kind of key it is.
    pub fn name(&self) -> String {
        if self.is_thrown_away {
            "a key made on the spot, for trying only".to_owned()
        } else {
            format!("the key in {}", self.keystore.display())
        }
    }
}

/// Signs `apk` into `signed`.
///
/// # Errors
/// What the signer says.
pub fn sign(tools: &PackTools, apk: &Path, key: &Key, signed: &Path) -> anyhow::Result<()> {
    let level = OLDEST_LEVEL.to_string();
    output(
        Command::new(&tools.apksigner)
            .args([
                "sign",
                "--ks-key-alias",
                ALIAS,
                "--ks-pass",
                &key.password,
                "--ks",
            ])
            .arg(&key.keystore)
            .args([
                "--min-sdk-version",
                &level,
                "--v4-signing-enabled",
                "false",
                "--out",
            ])
            .args([signed, apk]),
    )?;
    Ok(())
}
