import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { projectionSuite } from './projections.suite.ts'

projectionSuite(async () => createMemoryStore())
