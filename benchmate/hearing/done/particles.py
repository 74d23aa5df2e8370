"""A verb with what stands around it: its particles, the links that are particles too, and what is lost of them."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Setting, chain
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..seen.phrases import Phrase, leaves

# Links that are also particles: "back to two leaves", "looked over the roots".
PARTICLES = {"BACKTO": "back", "OVER": "over", "WITH": "with"}


def back_of(setting: Setting, verb: Token, thing: Phrase | None, posts: Sequence[Token], particles: list[str]) -> None:
    """ "unwired back branch": where nothing is done "back" with that verb, it tells the side."""
    beside = thing is not None and any(t.value == "back" and t.end == thing.span[0] for t in posts)
    if thing is None or not beside or any(key.startswith(f"{verb.value}|back|") for key in setting.lexicon.patterns):
        return
    thing.side = thing.side or "back"
    particles.remove("back")


def is_particle(setting: Setting, thing: Phrase, state: Token) -> bool:
    """Whether a state that also links, such as "on", stands last and says nothing of the thing."""
    cell = setting.lexicon.states.get(state.value, {})
    return bool(cell.get("place")) and state.end == thing.span[1] and not cell.get("of", {}).get(thing.part)


def lost_particle(setting: Setting, verb: Token, particles: Sequence[str], posts: Sequence[Token]) -> Token | None:
    """An "off" or "out" that no pattern of the verb knows, so that it would be dropped in silence."""
    for post in posts:
        dropped = post.kind == "PARTICLE" and post.value in ("off", "out") and post.value in particles
        dropped = dropped and (post.value == "off" or post.first == verb.end)
        if dropped and not any(key.startswith(f"{verb.value}|{post.value}|") for key in setting.lexicon.patterns):
            return post
    return None


def verb_phrase(vp: Node) -> tuple[Token, list[tuple[Token | None, Node]], list[Token]]:
    """(verb, noun phrases each with the link before it, all links and particles)."""
    verb: Token | None = None
    things: list[tuple[Token | None, Node]] = []
    posts: list[Token] = []
    link: Token | None = None
    why = -1  # where a purpose ends: a particle right behind it is its own ("to pull it round")
    for kind, item in chain(vp, whole="purpose"):
        if kind == "purpose":
            why = max(token.end for token in leaves(item))
            continue
        if kind == "link" and item.kind == "PARTICLE" and item.first == why:
            continue
        if kind == "np":
            things.append((link, item))
            link = None
        elif item.kind in ("V", "VED", "VING", "VNOW"):
            verb = verb or item
        else:
            posts.append(item)
            link = item if item.kind != "PARTICLE" else None
            if item.kind == "PARTICLE" and things:
                link = Token("FROM", "off", item.first, item.end, 0.0)
    assert verb is not None
    return verb, things, posts
