"""The files that operators start from: valid by the tools of their kind, and agreeing with the service and with one another."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest
import yaml

from kneewall import VERSION
from kneewall.http.settings import PREFIX, Settings
from tests.deployment.container import instructions
from tests.faults.service import ROOT
from tests.http.document import served_document

FOLDER = ROOT / "docker" / "kubernetes"
MANIFESTS = [path for path in sorted(FOLDER.glob("*.yaml")) if path.name != "kustomization.yaml"]
SETTINGS = {PREFIX + field.name.upper() for field in msgspec.structs.fields(Settings)}
HAPROXY = shutil.which("haproxy", path=f"{os.environ.get('PATH', '')}:/usr/sbin")


def every(kind: str) -> list[dict[str, Any]]:
    return [one for path in MANIFESTS for one in yaml.safe_load_all(path.read_text("utf-8")) if one["kind"] == kind]


def only(kind: str) -> Any:
    (found,) = every(kind)
    return found["spec"]


def validate(*paths: Path) -> subprocess.CompletedProcess[str]:
    program = "import sys; from kubernetes_validate.__main__ import main; sys.exit(main())"
    return subprocess.run([sys.executable, "-c", program, "--strict", *paths], capture_output=True, text=True, timeout=120, check=False)


def test_the_manifests_fit_the_schemas_of_kubernetes_and_a_planted_fault_does_not(tmp_path: Path) -> None:
    assert len(MANIFESTS) == 5
    found = validate(*MANIFESTS)
    assert found.returncode == 0, found.stdout + found.stderr
    spoilt = tmp_path / "deployment.yaml"
    spoilt.write_text((FOLDER / "deployment.yaml").read_text("utf-8").replace("readinessProbe", "readynessProbe"))
    assert validate(spoilt).returncode != 0


def test_the_kustomization_lists_every_manifest() -> None:
    listed = yaml.safe_load((FOLDER / "kustomization.yaml").read_text("utf-8"))["resources"]
    assert sorted(listed) == [path.name for path in MANIFESTS]


def test_the_pod_is_confined_and_its_probes_ask_paths_that_exist() -> None:
    deployment = only("Deployment")
    pod = deployment["template"]["spec"]
    (container,) = pod["containers"]
    assert pod["securityContext"]["runAsNonRoot"] and pod["automountServiceAccountToken"] is False
    assert container["securityContext"] == {
        "allowPrivilegeEscalation": False,
        "readOnlyRootFilesystem": True,
        "capabilities": {"drop": ["ALL"]},
    }
    paths = served_document()["paths"]
    for probe in ("startupProbe", "readinessProbe", "livenessProbe"):
        assert container[probe]["httpGet"]["path"] in paths
    assert deployment["template"]["metadata"]["annotations"]["prometheus.io/path"] in paths
    assert {one["name"] for one in container["env"]} <= SETTINGS
    assert container["image"] == f"kneewall:{VERSION}"


def test_the_pod_has_time_to_finish() -> None:
    pod = only("Deployment")["template"]["spec"]
    drain = next(int(one["value"]) for one in pod["containers"][0]["env"] if one["name"] == "KNEEWALL_DRAIN")
    assert pod["terminationGracePeriodSeconds"] > 5 + drain


def test_ports_users_and_labels_agree() -> None:
    deployment = only("Deployment")
    (last,) = [dict(stage) for stage in instructions()[-1:]]
    port = int(last["EXPOSE"])
    assert deployment["template"]["spec"]["containers"][0]["ports"] == [{"name": "http", "containerPort": port}]
    assert last["USER"] == "{runAsUser}:{runAsGroup}".format(**deployment["template"]["spec"]["securityContext"])
    labels = deployment["template"]["metadata"]["labels"]
    for kind, place in (("Deployment", "selector"), ("PodDisruptionBudget", "selector"), ("NetworkPolicy", "podSelector")):
        assert only(kind)[place]["matchLabels"] == labels
    assert only("Service")["selector"] == labels
    assert only("Service")["ports"][0]["targetPort"] == "http"
    assert {one["port"] for rule in only("NetworkPolicy")["ingress"] for one in rule["ports"]} == {port}
    assert only("HorizontalPodAutoscaler")["minReplicas"] > only("PodDisruptionBudget")["maxUnavailable"]


def test_the_composed_replicas_are_confined_and_settings_are_known() -> None:
    composed = yaml.safe_load((ROOT / "docker" / "compose.yaml").read_text("utf-8"))
    for service in composed["services"].values():
        assert service["read_only"] is True and service["cap_drop"] == ["ALL"]
        assert service["security_opt"] == ["no-new-privileges:true"]
    replica = composed["services"]["kneewall"]
    assert set(replica["environment"]) <= SETTINGS
    assert replica["deploy"]["replicas"] >= 2 and replica["image"] == f"kneewall:{VERSION}"
    assert "ports" not in replica, "only the balancer is reached from outside"
    text = (ROOT / "docker" / "haproxy.cfg").read_text("utf-8")
    assert "kneewall:8017" in text


def test_the_balancer_takes_its_configuration() -> None:
    if HAPROXY is None:
        assert os.environ.get("KNEEWALL_REQUIRE_HAPROXY") != "1", "HAProxy is required here and was not found"
        pytest.skip("HAProxy is not installed (Debian: apt-get install haproxy)")
    found = subprocess.run([HAPROXY, "-c", "-f", ROOT / "docker" / "haproxy.cfg"], capture_output=True, text=True, timeout=30, check=False)
    assert found.returncode == 0 and "warning" not in found.stderr.lower(), found.stderr
