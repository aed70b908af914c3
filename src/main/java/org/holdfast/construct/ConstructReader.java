package org.holdfast.construct;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.PlanePatch.Outline;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;

/** From a document's fields to the records. */
final class ConstructReader {

    private final MeshFolder folder;
    /** Meshes of the components by their files; patches are cut from them. */
    private final Map<String, MeshShape> meshes = new HashMap<>();

    private ConstructReader(MeshFolder folder) {
        this.folder = folder;
    }

    static Construct read(Fields f, MeshFolder folder) throws ConstructReadException {
        return new ConstructReader(folder).construct(f);
    }

    private Construct construct(Fields f) throws ConstructReadException {
        requireFormat(f);
        f.only(
                "format",
                "formatVersion",
                "id",
                "version",
                "operationDate",
                "referenceSeriesUid",
                "frameOfReferenceUid",
                "axes",
                "bones",
                "components",
                "joins",
                "interfaces");
        String id = f.text("id");
        int version = f.wholeNumber("version");
        LocalDate operationDate = f.date("operationDate");
        String series = f.text("referenceSeriesUid");
        String frame = f.text("frameOfReferenceUid");
        Axes axes = axes(f.object("axes"));
        List<Bone> bones = f.list("bones", ConstructReader::bone);
        List<Component> components = f.list("components", this::component);
        List<Join> joins = f.list("joins", ConstructReader::join);
        List<BoneInterface> interfaces = f.list("interfaces", this::boneInterface);
        return f.checked(() ->
                new Construct(id, version, operationDate, series, frame, axes, bones, components, joins, interfaces));
    }

    private static void requireFormat(Fields f) throws ConstructReadException {
        String format = f.text("format");
        if (!format.equals(ConstructJson.FORMAT)) {
            throw f.refusal("format", Rule.quoted(ConstructJson.FORMAT), Rule.quoted(format));
        }
        int formatVersion = f.wholeNumber("formatVersion");
        if (formatVersion != ConstructJson.FORMAT_VERSION) {
            throw f.refusal(
                    "formatVersion",
                    ConstructJson.FORMAT_VERSION + ", the only one that this software reads",
                    Integer.toString(formatVersion));
        }
    }

    private static Axes axes(Fields f) throws ConstructReadException {
        f.only("originMm", "left", "posterior", "cranial");
        PatientPoint origin = f.point("originMm");
        PatientVector left = f.vector("left");
        PatientVector posterior = f.vector("posterior");
        PatientVector cranial = f.vector("cranial");
        return f.checked(() -> new Axes(origin, left, posterior, cranial));
    }

    private static Bone bone(Fields f) throws ConstructReadException {
        f.only("id", "label");
        String id = f.text("id");
        String label = f.text("label");
        return f.checked(() -> new Bone(id, label));
    }

    private Component component(Fields f) throws ConstructReadException {
        f.only(
                "id",
                "number",
                "label",
                "kind",
                "material",
                "implantedOn",
                "removedOn",
                "porous",
                "screw",
                "rod",
                "box",
                "cylinder",
                "mesh");
        String id = f.text("id");
        int number = f.wholeNumber("number");
        String label = f.text("label");
        ComponentKind kind = f.word("kind", ComponentKind.class);
        Material material = f.word("material", Material.class);
        LocalDate implantedOn = f.date("implantedOn");
        Optional<LocalDate> removedOn = f.optionalDate("removedOn");
        Optional<Porous> porous = f.has("porous") ? Optional.of(porous(f.object("porous"))) : Optional.empty();
        Shape shape = shape(f);
        return f.checked(() -> new Component(id, number, label, kind, material, implantedOn, removedOn, porous, shape));
    }

    private static Porous porous(Fields f) throws ConstructReadException {
        f.only("porosity", "depthMm");
        double porosity = f.number("porosity");
        double depth = f.number("depthMm");
        return f.checked(() -> new Porous(porosity, depth));
    }

    private Shape shape(Fields component) throws ConstructReadException {
        String name = component.exactlyOne("screw", "rod", "box", "cylinder", "mesh");
        Fields f = component.object(name);
        return switch (name) {
            case "screw" -> screw(f);
            case "rod" -> rod(f);
            case "box" -> box(f);
            case "cylinder" -> cylinderShape(f);
            default -> mesh(f);
        };
    }

    private static ScrewShape screw(Fields f) throws ConstructReadException {
        f.only("headMm", "tipMm", "diameterMm", "bone", "inBoneMm");
        PatientPoint head = f.point("headMm");
        PatientPoint tip = f.point("tipMm");
        double diameter = f.number("diameterMm");
        String bone = f.text("bone");
        List<Double> inBone = f.numbers("inBoneMm", 2);
        return f.checked(() -> new ScrewShape(head, tip, diameter, bone, inBone.get(0), inBone.get(1)));
    }

    private static RodShape rod(Fields f) throws ConstructReadException {
        f.only("pointsMm", "diameterMm");
        List<PatientPoint> points = f.points("pointsMm");
        double diameter = f.number("diameterMm");
        return f.checked(() -> new RodShape(points, diameter));
    }

    private static BoxShape box(Fields f) throws ConstructReadException {
        f.only("centreMm", "axes", "halfMm");
        PatientPoint centre = f.point("centreMm");
        List<PatientVector> axes = f.vectors("axes");
        List<Double> half = f.numbers("halfMm", 3);
        return f.checked(() -> new BoxShape(centre, axes, half));
    }

    private static CylinderShape cylinderShape(Fields f) throws ConstructReadException {
        f.only("pMm", "qMm", "radiusMm");
        PatientPoint p = f.point("pMm");
        PatientPoint q = f.point("qMm");
        double radius = f.number("radiusMm");
        return f.checked(() -> new CylinderShape(p, q, radius));
    }

    private MeshShape mesh(Fields f) throws ConstructReadException {
        f.only("file", "sha256");
        String file = f.text("file");
        String sha256 = f.text("sha256");
        MeshShape shape = folder.read(f.checked(() -> new MeshShape(file, sha256)), f);
        meshes.put(file, shape);
        return shape;
    }

    private static Join join(Fields f) throws ConstructReadException {
        f.only("from", "to", "kind");
        String from = f.text("from");
        String to = f.text("to");
        JoinKind kind = f.word("kind", JoinKind.class);
        return f.checked(() -> new Join(from, to, kind));
    }

    private BoneInterface boneInterface(Fields f) throws ConstructReadException {
        f.only("id", "number", "label", "component", "bone", "filler", "patches");
        String id = f.text("id");
        int number = f.wholeNumber("number");
        String label = f.text("label");
        String component = f.text("component");
        String bone = f.text("bone");
        Filler filler = f.word("filler", Filler.class);
        List<Patch> patches = f.list("patches", this::patch);
        return f.checked(() -> new BoneInterface(id, number, label, component, bone, filler, patches));
    }

    private Patch patch(Fields f) throws ConstructReadException {
        String kind = f.text("kind");
        return switch (kind) {
            case "plane" -> plane(f);
            case "cylinder" -> cylinderPatch(f);
            case "sphere" -> sphere(f);
            case "surface" -> surface(f);
            default -> throw f.refusal("kind", "one of plane, cylinder, sphere, surface", Rule.quoted(kind));
        };
    }

    private static PlanePatch plane(Fields f) throws ConstructReadException {
        f.only("kind", "shape", "centreMm", "u", "v", "normal", "halfUMm", "halfVMm");
        Outline outline = f.word("shape", Outline.class);
        PatientPoint centre = f.point("centreMm");
        PatientVector u = f.vector("u");
        PatientVector v = f.vector("v");
        PatientVector normal = f.vector("normal");
        double halfU = f.number("halfUMm");
        double halfV = f.number("halfVMm");
        return f.checked(() -> new PlanePatch(outline, centre, u, v, normal, halfU, halfV));
    }

    private static CylinderPatch cylinderPatch(Fields f) throws ConstructReadException {
        f.only("kind", "pMm", "qMm", "radiusMm");
        PatientPoint p = f.point("pMm");
        PatientPoint q = f.point("qMm");
        double radius = f.number("radiusMm");
        return f.checked(() -> new CylinderPatch(p, q, radius));
    }

    private static SpherePatch sphere(Fields f) throws ConstructReadException {
        f.only("kind", "centreMm", "radiusMm", "pole", "halfAngleDeg");
        PatientPoint centre = f.point("centreMm");
        double radius = f.number("radiusMm");
        PatientVector pole = f.vector("pole");
        double halfAngle = f.number("halfAngleDeg");
        return f.checked(() -> new SpherePatch(centre, radius, pole, halfAngle));
    }

    private SurfacePatch surface(Fields f) throws ConstructReadException {
        String name = f.exactlyOne("triangles", "outline");
        f.only("kind", "mesh", name);
        String file = f.text("mesh");
        MeshShape shape = meshes.get(file);
        if (shape == null) {
            throw f.refusal("mesh", "the file of a component of this construct that is a mesh", Rule.quoted(file));
        }
        if (shape.mesh().isEmpty()) {
            throw f.refusal("mesh", "a document in a folder, beside which the file lies", "a text without a folder");
        }
        TriangleMesh mesh = shape.mesh().get();
        if (name.equals("triangles")) {
            List<Integer> triangles = f.wholeNumbers("triangles");
            return f.checked(() -> SurfacePatch.ofTriangles(file, mesh, triangles));
        }
        List<PatientPoint> outline = f.points("outline");
        return f.checked(() -> SurfacePatch.ofOutline(file, mesh, outline));
    }
}
