import type { Problem } from '../domain/result.ts'
import type { OpenFailure } from '../server/open.ts'
import type { AuthorityProblem } from '../server/stamp/start-stamper.ts'

type Failure = OpenFailure | AuthorityProblem | 'folder-in-use' | 'port-in-use' | 'address-unusable'

/** A sentence for whoever starts the program: what is wrong, and what to do. */
export const whatStandsInTheWay = (problem: Problem<Failure>): string => {
  const { code, at, evidence = {} } = problem
  return SENTENCES[code](at, evidence)
}

type Sentence = (at: string, evidence: Readonly<Record<string, string | number>>) => string

const SENTENCES: { readonly [C in Failure]: Sentence } = {
  'folder-in-use': (at, { pid }) =>
    `Another Screedbook${pid ? ` (process ${pid})` : ''} is serving ${at}. Stop it first, or give this one its own folder: DATA=other-folder.`,
  'address-unusable': (at, { code }) =>
    `This machine can’t listen at ${at} (${code}). HOST must be one of its own addresses; leave it unset for this computer alone.`,
  'port-in-use': (at) => `Something else listens on port ${at}. Choose another: PORT=7474 npm start.`,
  'master-key-malformed': (at) =>
    `${at} holds no master key (64 hex digits). Put the right one back; without it the log can’t be signed.`,
  'master-key-open': (at) => `Others can read ${at}. Make it yours alone: chmod 600 ${at}`,
  'master-key-differs': (at) =>
    `The master key does not belong to the log in this database (${at}). Put the right master.key back.`,
  'timestamp-url-malformed': (at) =>
    `TIMESTAMP_URL is ${at}, which is no address of a time-stamp authority: give one that begins with http:// or https://, or unset it.`,
  'timestamp-ca-malformed': (at) =>
    `TIMESTAMP_CA names ${at}, which holds no certificate (PEM). Name the authority’s certificate file, or unset it.`,
  'blobs-url-unknown': () =>
    'BLOBS_URL is set, and this release can’t store photos there yet. Unset it to keep them in the data folder.',
  'database-unreachable': (_at, { code }) =>
    `No database answers at DATABASE_URL (${code}). Is it running, and is the address right?`,
  'database-not-durable': (_at, { setting }) =>
    `The database may lose what it has confirmed: ${setting} is off. Turn it on in its settings; Screedbook won’t start without.`,
  'database-not-made': (at, { said }) => `The database could not be made in ${at}. PostgreSQL said:\n${said}`,
  'database-not-started': (at, { said }) =>
    `The database in ${at} did not start. Is the disk full? PostgreSQL’s log ends:\n${said}`,
  'postgres-missing': (_at, { platform }) =>
    `There is no PostgreSQL in node_modules for ${platform}. Run npm install again, or set DATABASE_URL to a PostgreSQL of your own.`,
  'postgres-unreachable': (at, { user }) =>
    `PostgreSQL must not run as root, and the user ${user} can’t reach ${at}. Start Screedbook as an ordinary user, or set DATABASE_URL.`,
}

/**
 * A sentence for what a file or folder would not let the program do; undefined for anything else, which is a bug and
 * should show where it happened.
 */
export const whatTheDiskSaid = (error: unknown): string | undefined => {
  if (!(error instanceof Error) || !('code' in error) || !('syscall' in error)) return undefined
  const { code, path } = error as NodeJS.ErrnoException
  const said = typeof code === 'string' ? DISK[code] : undefined
  return said && path ? `${said}: ${path}` : undefined
}

const DISK: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file or folder; make the folder first, or name another',
  ENOTDIR: 'Part of this path is a file where a folder is needed',
  EISDIR: 'This is a folder where a file is needed',
  EEXIST: 'This is a file where a folder is needed',
  EACCES: 'This may not be written or read; make it yours, or name another place',
  EPERM: 'This may not be written or read; make it yours, or name another place',
  EROFS: 'This disk can only be read',
  ENOSPC: 'The disk is full',
}
