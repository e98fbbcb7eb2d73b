// Where a thread of its own begins: it has no loader for TypeScript until it asks for one.
import '@oxc-node/core/register'

await import('./judge-in-thread.ts')
