package org.holdfast.desktop.viewmodel;

import org.holdfast.construct.Bone;
import org.holdfast.construct.Construct;
import org.holdfast.desktop.viewmodel.CourseResults.Known;

/** Bones as a reader knows them. */
final class BoneNames {

    private BoneNames() {}

    /** The bone's label; its id where the construct does not name it. */
    static String of(Construct construct, String boneId) {
        return construct.bones().stream()
                .filter(bone -> bone.id().equals(boneId))
                .map(Bone::label)
                .findFirst()
                .orElse(boneId);
    }

    static String of(Known known, String boneId) {
        return known.report().map(report -> of(report.construct(), boneId)).orElse(boneId);
    }
}
