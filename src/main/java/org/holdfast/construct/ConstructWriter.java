package org.holdfast.construct;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.function.Function;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** From the records to a document's tree, fields in the order of docs/construct.md. */
final class ConstructWriter {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private ConstructWriter() {}

    static ObjectNode tree(Construct c) {
        ObjectNode tree = NODES.objectNode();
        tree.put("format", ConstructJson.FORMAT);
        tree.put("formatVersion", ConstructJson.FORMAT_VERSION);
        tree.put("id", c.id());
        tree.put("version", c.version());
        tree.put("operationDate", c.operationDate().toString());
        tree.put("referenceSeriesUid", c.referenceSeriesUid());
        tree.put("frameOfReferenceUid", c.frameOfReferenceUid());
        tree.set("axes", axes(c.axes()));
        tree.set("bones", list(c.bones(), ConstructWriter::bone));
        tree.set("components", list(c.components(), ConstructWriter::component));
        tree.set("joins", list(c.joins(), ConstructWriter::join));
        tree.set("interfaces", list(c.interfaces(), ConstructWriter::boneInterface));
        return tree;
    }

    private static ObjectNode axes(Axes axes) {
        ObjectNode node = NODES.objectNode();
        node.set("originMm", numbers(axes.origin()));
        node.set("left", numbers(axes.left()));
        node.set("posterior", numbers(axes.posterior()));
        node.set("cranial", numbers(axes.cranial()));
        return node;
    }

    private static ObjectNode bone(Bone bone) {
        return NODES.objectNode().put("id", bone.id()).put("label", bone.label());
    }

    private static ObjectNode component(Component c) {
        ObjectNode node = NODES.objectNode();
        node.put("id", c.id());
        node.put("number", c.number());
        node.put("label", c.label());
        node.put("kind", c.kind().word());
        node.put("material", c.material().word());
        node.put("implantedOn", c.implantedOn().toString());
        c.removedOn().ifPresent(day -> node.put("removedOn", day.toString()));
        c.porous().ifPresent(layer -> node.putObject("porous")
                .put("porosity", layer.porosity())
                .put("depthMm", layer.depthMm()));
        addShape(node, c.shape());
        return node;
    }

    private static void addShape(ObjectNode component, Shape shape) {
        if (shape instanceof ScrewShape screw) {
            ObjectNode node = component.putObject("screw");
            node.set("headMm", numbers(screw.head()));
            node.set("tipMm", numbers(screw.tip()));
            node.put("diameterMm", screw.diameterMm());
            node.put("bone", screw.bone());
            node.set("inBoneMm", numbers(screw.inBoneFromMm(), screw.inBoneToMm()));
        } else if (shape instanceof RodShape rod) {
            ObjectNode node = component.putObject("rod");
            node.set("pointsMm", list(rod.points(), ConstructWriter::numbers));
            node.put("diameterMm", rod.diameterMm());
        } else if (shape instanceof BoxShape box) {
            ObjectNode node = component.putObject("box");
            node.set("centreMm", numbers(box.centre()));
            node.set("axes", list(box.axes(), ConstructWriter::numbers));
            List<Double> half = box.halfMm();
            node.set("halfMm", numbers(half.get(0), half.get(1), half.get(2)));
        } else if (shape instanceof CylinderShape cylinder) {
            ObjectNode node = component.putObject("cylinder");
            node.set("pMm", numbers(cylinder.p()));
            node.set("qMm", numbers(cylinder.q()));
            node.put("radiusMm", cylinder.radiusMm());
        } else if (shape instanceof MeshShape mesh) {
            component.putObject("mesh").put("file", mesh.file()).put("sha256", mesh.sha256());
        }
    }

    private static ObjectNode join(Join join) {
        return NODES.objectNode()
                .put("from", join.from())
                .put("to", join.to())
                .put("kind", join.kind().word());
    }

    private static ObjectNode boneInterface(BoneInterface face) {
        ObjectNode node = NODES.objectNode();
        node.put("id", face.id());
        node.put("number", face.number());
        node.put("label", face.label());
        node.put("component", face.component());
        node.put("bone", face.bone());
        node.put("filler", face.filler().word());
        node.set("patches", list(face.patches(), ConstructWriter::patch));
        return node;
    }

    private static ObjectNode patch(Patch patch) {
        ObjectNode node = NODES.objectNode();
        if (patch instanceof PlanePatch plane) {
            node.put("kind", "plane");
            node.put("shape", plane.outline().word());
            node.set("centreMm", numbers(plane.centre()));
            node.set("u", numbers(plane.u()));
            node.set("v", numbers(plane.v()));
            node.set("normal", numbers(plane.normal()));
            node.put("halfUMm", plane.halfUMm());
            node.put("halfVMm", plane.halfVMm());
        } else if (patch instanceof CylinderPatch cylinder) {
            node.put("kind", "cylinder");
            node.set("pMm", numbers(cylinder.p()));
            node.set("qMm", numbers(cylinder.q()));
            node.put("radiusMm", cylinder.radiusMm());
        } else if (patch instanceof SurfacePatch surface) {
            node.put("kind", "surface");
            node.put("mesh", surface.mesh());
            if (surface.triangles().isEmpty()) {
                node.set("outline", list(surface.outline(), ConstructWriter::numbers));
            } else {
                ArrayNode triangles = node.putArray("triangles");
                surface.triangles().forEach(triangles::add);
            }
        } else if (patch instanceof SpherePatch sphere) {
            node.put("kind", "sphere");
            node.set("centreMm", numbers(sphere.centre()));
            node.put("radiusMm", sphere.radiusMm());
            node.set("pole", numbers(sphere.pole()));
            node.put("halfAngleDeg", sphere.halfAngleDeg());
        }
        return node;
    }

    private static <T> ArrayNode list(
            List<T> values, Function<T, ? extends com.fasterxml.jackson.databind.JsonNode> made) {
        ArrayNode list = NODES.arrayNode();
        values.forEach(value -> list.add(made.apply(value)));
        return list;
    }

    private static ArrayNode numbers(PatientPoint p) {
        return numbers(p.x(), p.y(), p.z());
    }

    private static ArrayNode numbers(PatientVector v) {
        return numbers(v.x(), v.y(), v.z());
    }

    private static ArrayNode numbers(double... values) {
        ArrayNode list = NODES.arrayNode();
        for (double value : values) {
            list.add(value);
        }
        return list;
    }
}
