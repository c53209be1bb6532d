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
  if (target.at === 'url') return postgres(target.url, shared)
  const { folder, port, user, password, database } = target
  return postgres({ ...shared, host: folder, port, user, password, database })
}
