export * from './accounts.ts'
export * from './devices.ts'
export * from './log.ts'
export * from './views.ts'
