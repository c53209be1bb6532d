/** Of the messages between phone and server; VERSIONS.md says what each brought. Sent as `protocol` in each push. */
export const PROTOCOL_VERSION = 1
