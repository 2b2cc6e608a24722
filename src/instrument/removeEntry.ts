import { isNode, isScalar, type YAMLMap } from "yaml";
import { joinedComments } from "./joinedComments.js";

/** Takes an entry out of a mapping; its comments stay, before the next entry or at the end. */
export function removeEntry(mapping: YAMLMap, key: string): void {
  const index = mapping.items.findIndex((pair) => isScalar(pair.key) && pair.key.value === key);
  const [removed] = index < 0 ? [] : mapping.items.splice(index, 1);
  if (removed === undefined) return;
  const kept = [removed.key, removed.value].flatMap((node) =>
    isNode(node) ? [node.commentBefore, node.comment] : [],
  );
  const next = mapping.items[index]?.key;
  if (isNode(next)) next.commentBefore = joinedComments(...kept, next.commentBefore);
  else mapping.comment = joinedComments(...kept, mapping.comment);
}
