import { createSignal, Show } from 'solid-js'
import type { Layout } from '#contract/layout.ts'
import type { LayoutProposal } from '#contract/layout-proposal.ts'
import type { Conflict, Quarantined, Receipt } from '#contract/receipt.ts'
import { askServer, sendServer, sentenceOf, tellServer } from '../state/ask-server.ts'
import { refreshSite, sitePath } from '../state/open-site.ts'
import { hindranceTo } from '../state/permitted.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { sync } from '../ui/sync.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { DeclaredLayouts } from './DeclaredLayouts.tsx'
import { ConflictTable, QuarantineTable } from './ImportTables.tsx'
import { ProposalSheet } from './ProposalSheet.tsx'
import { ReceiptList } from './ReceiptList.tsx'
import { ReceiverRecords } from './ReceiverRecords.tsx'

/** A first look reads no more than this of a file. */
const lookBytes = 2 * 1024 ** 2

/** Files taken in: look at one, take it, and see what became of every line. */
export function ImportsPanel() {
  const site = () => siteDocument()?.facts.id ?? ''
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [file, setFile] = createSignal<File | null>(null)
  const [proposal, setProposal] = createSignal<LayoutProposal | null>(null)
  const [working, setWorking] = createSignal<string | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [receipts, setReceipts] = createSignal<readonly Receipt[] | null>(null)
  const [layouts, setLayouts] = createSignal<readonly Layout[] | null>(null)
  const [conflicts, setConflicts] = createSignal<readonly Conflict[]>([])
  const [opened, setOpened] = createSignal<{ batch: number; entries: readonly Quarantined[] } | null>(null)
  const [dragging, setDragging] = createSignal(false)

  const during = async (sentence: string, task: () => Promise<void>) => {
    setWorking(sentence)
    setTrouble(null)
    try {
      await task()
    } catch (cause) {
      setTrouble(sentenceOf(cause))
    } finally {
      setWorking(null)
    }
  }
  const listAgain = async () => {
    const [batches, differing, declared] = await Promise.all([
      askServer<{ batches: readonly Receipt[] }>(sitePath(site(), '/batches')),
      askServer<{ conflicts: readonly Conflict[] }>(sitePath(site(), '/conflicts')),
      askServer<{ layouts: readonly Layout[] }>(sitePath(site(), '/layouts')),
    ])
    setReceipts([...batches.batches].sort((left, right) => right.batch - left.batch))
    setConflicts(differing.conflicts)
    setLayouts(declared.layouts)
  }
  const look = (chosen: File) =>
    during(`Looking at ${chosen.name} …`, async () => {
      setFile(chosen)
      setProposal(null)
      const path = sitePath(site(), `/files/look?${new URLSearchParams({ name: chosen.name })}`)
      setProposal(await tellServer<LayoutProposal>(path, chosen.slice(0, lookBytes)))
    })
  const take = (chosen: File, layout: string | null) =>
    during(`Taking in ${chosen.name} …`, async () => {
      const query = new URLSearchParams({ name: chosen.name, ...(layout && { layout }) })
      const receipt = await tellServer<Receipt>(sitePath(site(), `/files?${query}`), chosen)
      if (receipt.outcome === 'refused') setTrouble(`${chosen.name}: ${receipt.message}`)
      announce(`${chosen.name}: ${receipt.accepted} readings accepted, ${receipt.quarantined} quarantined`)
      setFile(null)
      setProposal(null)
      await Promise.all([listAgain(), refreshSite(site())])
    })
  const declare = async (layout: unknown, reason: string) => {
    await sendServer(sitePath(site(), '/layouts'), { layout, reason })
    const chosen = file()
    announce(chosen ? 'The layout is declared; the file is looked at again' : 'The layout is declared')
    await during('Fetching the list of layouts …', listAgain)
    if (chosen) await look(chosen)
  }
  const loggers = () => siteDocument()?.loggers.map(({ id }) => id) ?? []
  const retry = (batch: number) =>
    during(`Trying batch ${batch} again …`, async () => {
      await tellServer<Receipt>(sitePath(site(), `/batches/${batch}/retry`), null)
      await Promise.all([listAgain(), refreshSite(site())])
    })
  const showQuarantine = (batch: number) =>
    during('Fetching the quarantine …', async () => {
      const answer = await askServer<{ quarantined: readonly Quarantined[] }>(
        sitePath(site(), `/quarantine?batch=${batch}`),
      )
      setOpened({ batch, entries: answer.quarantined })
    })
  const hidden = () => hindranceTo('read-all')
  sync(
    () => (hidden() === null ? site() : ''),
    (id) => {
      if (id !== '') void during('Fetching the list of files …', listAgain)
    },
  )
  const drop = (event: DragEvent) => {
    event.preventDefault()
    setDragging(false)
    const dropped = event.dataTransfer?.files[0]
    if (dropped) void look(dropped)
  }
  return (
    <div class="imports">
      <label
        class="drop"
        classList={{ dragging: dragging() }}
        onDragOver={(event) => {
          event.preventDefault()
          setDragging(true)
        }}
        onDragLeave={() => setDragging(false)}
        onDrop={drop}
      >
        <span>Drop a logger file here, or choose one.</span>
        <input
          type="file"
          onChange={(event) => {
            const chosen = event.currentTarget.files?.[0]
            if (chosen) void look(chosen)
          }}
        />
        <small>
          It is looked at first; nothing is stored until you take it in. It is kept byte for byte.
        </small>
      </label>
      <div aria-live="polite">
        <Show when={working()}>{(sentence) => <p class="waiting">{sentence()}</p>}</Show>
        <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      </div>
      <Show when={file()}>
        {(chosen) => (
          <Show when={proposal()}>
            {(seen) => (
              <ProposalSheet
                fileName={chosen().name}
                proposal={seen()}
                zone={zone()}
                loggers={loggers()}
                take={(layout) => void take(chosen(), layout)}
                declare={declare}
                leave={() => setFile(null)}
              />
            )}
          </Show>
        )}
      </Show>
      <Show when={conflicts().length > 0}>
        <ConflictTable conflicts={conflicts()} zone={zone()} />
      </Show>
      <WhenAllowed to="add">
        <ReceiverRecords site={site()} />
      </WhenAllowed>
      <Show when={hidden()}>{(sentence) => <p>{sentence()} Files taken in are not listed.</p>}</Show>
      <Show when={layouts()}>
        {(declared) => <DeclaredLayouts layouts={declared()} loggers={loggers()} declare={declare} />}
      </Show>
      <Show when={receipts()}>
        {(taken) => (
          <ReceiptList
            receipts={taken()}
            zone={zone()}
            showQuarantine={(batch) => void showQuarantine(batch)}
            retry={(batch) => void retry(batch)}
            below={(batch) => (
              <Show when={opened()?.batch === batch}>
                <QuarantineTable entries={opened()?.entries ?? []} />
              </Show>
            )}
          />
        )}
      </Show>
    </div>
  )
}
