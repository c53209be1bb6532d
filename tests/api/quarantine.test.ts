import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { quarantineSuite } from './quarantine.suite.ts'

quarantineSuite(async () => createMemoryStore())
