import { type DerivationMessage, runDerivations } from './run-derivations.ts'

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<DerivationMessage>) => void) | null
  postMessage(message: unknown): void
}

// A timeout of nothing waits 4 ms once it is asked for in a row; a message to oneself does not.
const own = new MessageChannel()
const waiting: (() => void)[] = []
own.port1.onmessage = () => waiting.shift()?.()

const run = runDerivations({
  tell: (answer) => scope.postMessage(answer),
  pause: () =>
    new Promise((resolve) => {
      waiting.push(resolve)
      own.port2.postMessage(null)
    }),
  nowMs: () => performance.now(),
})

scope.onmessage = ({ data }) => void run(data)
