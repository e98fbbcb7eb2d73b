import { createServer, type IncomingHttpHeaders, type RequestListener } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface Received {
  readonly path: string
  readonly headers: IncomingHttpHeaders
  readonly body: Buffer
}

/** A receiver of POSTs on this machine: what it got, and what it answers next. */
export interface Receiver {
  readonly port: number
  readonly received: Received[]
  answerWith(answer: RequestListener | number): void
  close(): Promise<void>
}

export async function openReceiver(): Promise<Receiver> {
  const received: Received[] = []
  let answer: RequestListener = (_request, response) => response.writeHead(204).end()
  const server = createServer((request, response) => {
    const parts: Buffer[] = []
    request.on('data', (part) => parts.push(part))
    request.on('end', () => {
      received.push({ path: request.url ?? '', headers: request.headers, body: Buffer.concat(parts) })
      answer(request, response)
    })
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    port: (server.address() as AddressInfo).port,
    received,
    answerWith(next) {
      answer = typeof next === 'number' ? (_request, response) => response.writeHead(next).end() : next
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}
