"""Writes the DXF files of this folder with ezdxf (Debian: python3-ezdxf). The tests state what they must come out as."""
import math
import os
import ezdxf

HERE = os.path.dirname(os.path.abspath(__file__))


def save(doc, name):
    doc.saveas(os.path.join(HERE, name))


def polyline(space, points, version, **attribs):
    """Vertices (x, y, bulge), closed; R12 knows only the heavy kind."""
    if version == 'R12':
        space.add_polyline2d(points, format='xyb', close=True, dxfattribs=attribs)
    else:
        space.add_lwpolyline(points, format='xyb', close=True, dxfattribs=attribs)


for version in ('R12', 'R2000', 'R2018'):
    doc = ezdxf.new(version)
    doc.header['$INSUNITS'] = 4
    doc.layers.add('Löcher', color=1)
    doc.layers.add('Hilfslinien', color=2).off()
    space = doc.modelspace()
    # 100 × 50 with a half-turn end: 100·50 + π·25²/2.
    polyline(space, [(0, 0, 0), (100, 0, 1), (100, 50, 0), (0, 50, 0)], version)
    space.add_circle((30, 25), 10, dxfattribs={'layer': 'Löcher'})
    # A slot of loose edges in no order, 20 long between the centres, 8 wide.
    space.add_line((60, 21), (80, 21))
    space.add_arc((60, 25), 4, 90, 270)
    space.add_line((80, 29), (60, 29))
    space.add_arc((80, 25), 4, 270, 90)
    # A piece of its own.
    space.add_line((200, 0), (230, 0))
    space.add_line((230, 0), (230, 40))
    space.add_line((200, 0), (230, 40))
    # What is no outline.
    space.add_text('Grundplatte ø 20')
    space.add_circle((30, 25), 3, dxfattribs={'layer': 'Hilfslinien'})
    space.add_line((0, 70), (10, 70))
    doc.layout('Layout1' if 'Layout1' in doc.layouts.names() else doc.layouts.names()[-1]).add_circle((0, 0), 5)
    save(doc, f'plate-{version.lower()}.dxf')

doc = ezdxf.new('R2000')
doc.header['$INSUNITS'] = 1
leaf = doc.blocks.new('LEAF', base_point=(1, 1))
leaf.add_lwpolyline([(1, 1, 0), (3, 1, 0), (3, 2, 0.5), (1, 2, 0)], format='xyb', close=True)
twig = doc.blocks.new('TWIG')
twig.add_blockref('LEAF', (0, 0))
twig.add_blockref('leaf', (10, 0), dxfattribs={'rotation': 30, 'xscale': -2, 'yscale': 2})
space = doc.modelspace()
space.add_blockref('TWIG', (0, 0))
space.add_blockref('TWIG', (0, 20), dxfattribs={'rotation': 90})
grid = space.add_blockref('LEAF', (50, 0))
grid.dxf.column_count, grid.dxf.column_spacing = 3, 5
grid.dxf.row_count, grid.dxf.row_spacing = 2, 4
disc = doc.blocks.new('DISC')
disc.add_circle((0, 0), 1)
space.add_blockref('DISC', (0, 60), dxfattribs={'xscale': 3, 'yscale': 2, 'rotation': 20})
space.add_blockref('NOWHERE', (0, 0))
save(doc, 'blocks.dxf')

doc = ezdxf.new('R2000')
doc.header['$INSUNITS'] = 4
space = doc.modelspace()
down = {'extrusion': (0, 0, -1)}
# Seen from above all of these lie right of the y axis.
space.add_lwpolyline([(-10, 0, 0), (-40, 0, 0), (-40, 20, -0.5), (-10, 20, 0)], format='xyb', close=True, dxfattribs=down)
space.add_circle((-25, 10), 5, dxfattribs=down)
space.add_line((60, -6), (60, 6))
space.add_arc((-60, 0), 6, 90, 270, dxfattribs=down)
space.add_ellipse((100, 0), major_axis=(8, 0), ratio=0.5, start_param=0, end_param=math.pi, dxfattribs=down)
space.add_line((92, 0), (108, 0))
space.add_circle((0, 0), 5, dxfattribs={'extrusion': (0, 1, 0)})
save(doc, 'mirrored.dxf')

doc = ezdxf.new('R2010')
doc.header['$INSUNITS'] = 5
space = doc.modelspace()
half = math.sqrt(0.5)
circle = space.add_spline(degree=2)
circle.control_points = [(5, 0), (5, 5), (0, 5), (-5, 5), (-5, 0), (-5, -5), (0, -5), (5, -5), (5, 0)]
circle.weights = [1, half, 1, half, 1, half, 1, half, 1]
circle.knots = [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4]
space.add_ellipse((30, 0), major_axis=(6, 8), ratio=0.4)
space.add_spline([(60, 0), (65, 4), (70, 0)])
space.add_line((60, 0), (70, 0))
save(doc, 'curves.dxf')
