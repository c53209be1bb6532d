import postgres from 'postgres'

/** Where a PostgreSQL is: a URL as the operator gave it, or the socket of one of our own. */
export type Target =
  | { readonly at: 'url'; readonly url: string }
  | {
      readonly at: 'socket'
      /** Folder that holds the socket. */
      readonly folder: string
      readonly port: number
      readonly user: string
      readonly password: string
      readonly database: string
    }

export type Sql = postgres.Sql
export type ClientOptions = postgres.Options<Record<string, postgres.PostgresType>>

/** A client; it connects when first asked. Notices go nowhere: "relation already exists" is no news at a start. */
export const openClient = (target: Target, options: ClientOptions): Sql => {
  const shared = {
    onnotice: () => {},
    ...options,
    connection: { application_name: 'screedbook', ...options.connection },
  }
  if (target.at === 'url') {
    const { url, socket } = withoutSocket(target.url)
    return postgres(url, socket ? { ...shared, host: socket } : shared)
  }
  const { folder, port, user, password, database } = target
  return postgres({ ...shared, host: folder, port, user, password, database })
}

/**
 * `postgres://user@/name?host=/run/postgresql` is how libpq says that the server is on a socket; the driver takes the
 * folder as an option alone. Source: PostgreSQL 18 documentation, §32.1.1.2.
 */
const withoutSocket = (given: string): { url: string; socket: string | undefined } => {
  // libpq takes an address without a host; the standard's reader of addresses does not.
  const url = new URL(given.replace(/^(\w+:\/\/(?:[^@/]*@)?)\//, '$1localhost/'))
  const socket = url.searchParams.get('host')
  if (!socket?.startsWith('/')) return { url: url.href, socket: undefined }
  url.port ||= url.searchParams.get('port') ?? ''
  url.searchParams.delete('host')
  url.searchParams.delete('port')
  return { url: url.href, socket }
}

/** Whether this can be read as a database's address at all. */
export const isAddress = (given: string): boolean => {
  try {
    return /^postgres(?:ql)?:/.test(withoutSocket(given).url)
  } catch {
    return false
  }
}
