/** Brings a keyed set of nodes in line with a display list: creates, updates, destroys, and keeps the order. */
export interface NodeOps<Item, Node> {
  create(item: Item): Node
  update(node: Node, item: Item): void
  destroy(node: Node): void
  /** Called for each node in the list's order, only where the order has changed. */
  place(node: Node, index: number): void
}

export function reconcile<Item extends { readonly id: string }, Node>(
  nodes: Map<string, Node>,
  items: readonly Item[],
  ops: NodeOps<Item, Node>,
): void {
  const wanted = new Set(items.map((i) => i.id))
  for (const [id, node] of nodes) {
    if (wanted.has(id)) continue
    ops.destroy(node)
    nodes.delete(id)
  }
  const before = [...nodes.keys()]
  const kept = items.filter((i) => nodes.has(i.id)).map((i) => i.id)
  const reordered = kept.length !== items.length || kept.some((id, i) => id !== before[i])
  const next: [string, Node][] = []
  for (const item of items) {
    let node = nodes.get(item.id)
    if (node === undefined) node = ops.create(item)
    else ops.update(node, item)
    next.push([item.id, node])
  }
  if (!reordered) return
  nodes.clear()
  next.forEach(([id, node], i) => {
    nodes.set(id, node)
    ops.place(node, i)
  })
}
