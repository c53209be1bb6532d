#!/usr/bin/env node
// The sources are TypeScript: Node 20 runs them through tsx.
import { register } from 'tsx/esm/api'

register()
const { main } = await import('./main.ts')
process.exitCode = await main(process.argv.slice(2))
