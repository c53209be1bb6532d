"""Ed25519 through the `openssl` command, since the standard library has none."""

import base64
import os
import subprocess
import tempfile

# The fixed beginning of an Ed25519 SubjectPublicKeyInfo; the 32 bytes of the key follow.
SPKI_PREFIX = bytes.fromhex("302a300506032b6570032100")

# RFC 8032 section 7.1, TEST 2: shows that this openssl can do what is asked of it before it is believed.
PROBE_KEY = bytes.fromhex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c")
PROBE_MESSAGE = b"\x72"
PROBE_SIGNATURE = bytes.fromhex(
    "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
    "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00")


class NoOpenssl(Exception):
    """There is no openssl here that verifies Ed25519."""


class Verifier:
    """Verifies each distinct (key, message, signature) once: one head may stand in hundreds of proofs."""

    def __init__(self):
        self.known = {}
        self.runs = 0
        self.folder = tempfile.TemporaryDirectory(prefix="spec-checker-")
        wrong = PROBE_SIGNATURE[:-1] + b"\x01"
        if not self.verify(PROBE_KEY, PROBE_MESSAGE, PROBE_SIGNATURE) or self.verify(PROBE_KEY, PROBE_MESSAGE, wrong):
            self.close()
            raise NoOpenssl("the openssl command is missing or doesn't verify Ed25519 (version 3 is needed)")
        self.runs = 0

    def close(self):
        self.folder.cleanup()

    def verify(self, public_key, message, signature):
        what = (public_key, message, signature)
        if what not in self.known:
            self.known[what] = self._run(*what)
        return self.known[what]

    def _run(self, public_key, message, signature):
        if len(public_key) != 32 or len(signature) != 64:
            return False
        self.runs += 1
        pem = b"-----BEGIN PUBLIC KEY-----\n" + base64.b64encode(SPKI_PREFIX + public_key)
        pem += b"\n-----END PUBLIC KEY-----\n"
        paths = {}
        for name, data in (("key.pem", pem), ("message", message), ("signature", signature)):
            # -rawin wants a real file, whose size it can ask for.
            paths[name] = os.path.join(self.folder.name, name)
            with open(paths[name], "wb") as out:
                out.write(data)
        command = ["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", paths["key.pem"],
                   "-rawin", "-in", paths["message"], "-sigfile", paths["signature"]]
        try:
            done = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                  stderr=subprocess.DEVNULL, timeout=60)
        except (OSError, subprocess.TimeoutExpired):
            return False
        return done.returncode == 0
