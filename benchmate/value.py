"""Value classes as `dataclasses` makes them, at a tenth of the cost of a start.

The standard decorator writes and compiles six methods a class, used or not, and brings `inspect` with it: for the
classes that one statement needs that was a fifth of the whole start. Here the methods are shared, and a class gets an
`__init__` of its own when the first of it is made. To all else (`dataclasses.replace`, `fields`, `asdict`, a type
checker) the classes are dataclasses.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from dataclasses import dataclass, field, replace

__all__ = ["dataclass", "field", "replace"]

if not TYPE_CHECKING:
    from operator import attrgetter

    _MISSING = object()

    class _Made:
        """A default that is made anew for each value."""

        def __init__(self, factory):
            self.factory = factory

    def field(*, default_factory):
        """A field whose default is made by a call. default_factory: what makes it."""
        return _Made(default_factory)

    def dataclass(cls=None, *, frozen=False, slots=False, order=False):
        """As `dataclasses.dataclass` with these three choices. Fields that are inherited are none of its business."""

        def wrap(cls):
            return _dress(cls, frozen, slots, order)

        return wrap if cls is None else wrap(cls)

    def replace(value, /, **changes):
        """The value with some of its fields changed. Raises TypeError for a field that it does not have."""
        try:
            names = value.__class__.__match_args__
        except AttributeError:
            raise TypeError(f"{type(value).__name__} is no value with fields") from None
        for name in names:
            if name not in changes:
                changes[name] = getattr(value, name)
        return value.__class__(**changes)

    def _dress(cls, frozen, slots, order):
        if any(hasattr(base, "__match_args__") for base in cls.__bases__):
            raise TypeError(f"{cls.__name__}: a value class stands alone; it inherits no fields")
        body = dict(cls.__dict__)
        names = tuple(name for name, kind in cls.__annotations__.items() if not str(kind).startswith("ClassVar"))
        defaults = {name: body[name] for name in names if name in body}
        for name, default in defaults.items():
            if isinstance(default, _Made):
                body.pop(name)
        for name in ("__dict__", "__weakref__", *(names if slots else ())):
            body.pop(name, None)
        if slots:
            body["__slots__"] = names
        # what the class writes itself is kept
        body.setdefault("__repr__", _repr)
        if "__eq__" not in body:
            body["__eq__"] = _eq
            body.setdefault("__hash__", _hash if frozen else None)
        elif frozen:
            body.setdefault("__hash__", _hash)
        if order:
            body |= {"__lt__": _lt, "__le__": _le, "__gt__": _gt, "__ge__": _ge}
        if frozen:
            body |= {"__setattr__": _refuse_set, "__delattr__": _refuse_delete}
            if slots:
                body |= {"__getstate__": _state, "__setstate__": _set_state}
        body["__match_args__"] = names
        body["_key"] = attrgetter(*names) if names else _no_key
        body["__dataclass_fields__"] = _Fields(cls.__annotations__, defaults)
        body["__init__"] = _first_init(names, defaults)
        made = type(cls)(cls.__name__, cls.__bases__, body)
        made.__qualname__ = cls.__qualname__
        return made

    def _first_init(names, defaults):
        """An `__init__` that writes the class's own when it is called for the first time."""

        def __init__(self, *args, **more):
            cls = type(self)
            cls.__init__ = _write_init(cls, names, defaults)
            self.__init__(*args, **more)

        return __init__

    def _write_init(cls, names, defaults):
        room = {"_missing": _MISSING, "_set": object.__setattr__}
        heads, lines = ["self"], []
        for name in names:
            default = defaults.get(name, _MISSING)
            value = name
            if isinstance(default, _Made):
                room[f"_make_{name}"] = default.factory
                heads.append(f"{name}=_missing")
                value = f"_make_{name}() if {name} is _missing else {name}"
            elif default is _MISSING:
                heads.append(name)
            else:
                room[f"_default_{name}"] = default
                heads.append(f"{name}=_default_{name}")
            slot = cls.__dict__.get(name)
            if hasattr(slot, "__set__"):
                room[f"_set_{name}"] = slot.__set__
                lines.append(f" _set_{name}(self, {value})")
            else:
                lines.append(f" _set(self, {name!r}, {value})")
        exec(f"def __init__({', '.join(heads)}):\n" + "\n".join(lines or [" pass"]), room)
        made = room["__init__"]
        made.__qualname__ = f"{cls.__qualname__}.__init__"
        return made

    class _Fields:
        """`__dataclass_fields__`, built when somebody asks, which the way of a statement never does."""

        def __init__(self, annotations, defaults):
            self._annotations, self._defaults = annotations, defaults

        def __get__(self, value, cls):
            import dataclasses

            def told(default):
                if isinstance(default, _Made):
                    return dataclasses.field(default_factory=default.factory)
                return dataclasses.field() if default is _MISSING else dataclasses.field(default=default)

            held = {name: told(self._defaults.get(name, _MISSING)) for name in cls.__match_args__}
            plain = dataclasses.make_dataclass(
                cls.__name__, [(name, self._annotations[name], one) for name, one in held.items()]
            )
            cls.__dataclass_fields__ = plain.__dataclass_fields__
            return cls.__dataclass_fields__

    def _no_key(value):
        return ()

    def _repr(self):
        told = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
        return f"{self.__class__.__qualname__}({told})"

    def _eq(self, other):
        if other.__class__ is not self.__class__:
            return NotImplemented
        key = self.__class__._key
        return key(self) == key(other)

    def _hash(self):
        return hash(self.__class__._key(self))

    def _lt(self, other):
        return _both(self, other, lambda a, b: a < b)

    def _le(self, other):
        return _both(self, other, lambda a, b: a <= b)

    def _gt(self, other):
        return _both(self, other, lambda a, b: a > b)

    def _ge(self, other):
        return _both(self, other, lambda a, b: a >= b)

    def _both(self, other, compare):
        if other.__class__ is not self.__class__:
            return NotImplemented
        key = self.__class__._key
        return compare(key(self), key(other))

    def _refuse_set(self, name, value):
        from dataclasses import FrozenInstanceError

        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def _refuse_delete(self, name):
        from dataclasses import FrozenInstanceError

        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def _state(self):
        return [getattr(self, name) for name in self.__match_args__]

    def _set_state(self, state):
        for name, value in zip(self.__match_args__, state, strict=True):
            object.__setattr__(self, name, value)
