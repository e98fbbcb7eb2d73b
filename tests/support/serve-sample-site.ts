import type { TestProject } from 'vitest/node'
import { startServer } from './start-server.ts'

/**
 * One server on the sample site for all browser tests of a run. Its data folder is kept between runs; a
 * changed sample site makes it anew.
 */
export default async function serveSampleSite({ provide }: TestProject) {
  const { address, stop } = await startServer('.cache/test-data')
  provide('sampleAddress', address)
  return stop
}
