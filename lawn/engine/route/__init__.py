"""The route over a zone: strips, edge strips, their order and cover."""

from lawn.engine.core.glossary import add

add(
    {
        "heading_deg": ("heading of the strips", "deg", 0.0, 360.0),
        "header_strips": ("strips round each edge", "strips", 0, 4),
        "water_edges": ("edge at the water", "edges", 0, 399),
    }
)
